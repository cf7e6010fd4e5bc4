// A bake of the daybook with its file read as an object. The daybook keeps the file as text; the server turns one into the
// other, so that only one program reads bake files.
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { type Moment, from_utc, iso, moment_of, to_utc } from "../say/clock";
import { type Form, text } from "../state/bake";
import { forms, keep_if_room, kept_text } from "../state/store";
import { Away, anew, get, post, put } from "./ask";
import type { Bake as AnyBake, BakeAnswer, BakeRecord } from "./types";
import { type Held, useAnswer } from "./use";

export interface Bake extends BakeRecord {
  form: Form;
}

type More = Partial<Pick<BakeRecord, "state" | "culture" | "note" | "tags" | "mixed_at">>;

const read_before = new Map<string, Form>();
const place = (id: string) => forms + id;

const read_soon = new Map<string, Promise<BakeAnswer | undefined>>();

/** Has the file of a bake read whose record is on its way. */
export function read_ahead(id: string): void {
  read_soon.set(id, post<BakeAnswer>("/api/bake", { bake_id: id }).catch(() => undefined));
}

/** As it was read ahead, if the record has that file still. */
async function was_read(record: BakeRecord): Promise<BakeAnswer | undefined> {
  const read = await read_soon.get(record.id);
  read_soon.delete(record.id);
  return read?.text === record.toml ? read : undefined;
}

/** The record with its file as an object. What was read once is known again while the server is away. */
export async function with_form(record: BakeRecord, signal?: AbortSignal): Promise<Bake> {
  const known = read_before.get(record.toml);
  if (known) return { ...record, form: known };
  try {
    const { form } = (await was_read(record)) ?? (await post<BakeAnswer>("/api/bake", { bake: record.toml }, signal ? { signal } : {}));
    read_before.set(record.toml, form);
    keep_if_room(place(record.id), JSON.stringify({ toml: record.toml, form }));
    return { ...record, form };
  } catch (error) {
    const kept = error instanceof Away ? kept_text(place(record.id)) : null;
    const form = kept === null ? undefined : (JSON.parse(kept) as { toml: string; form: Form });
    if (form?.toml !== record.toml) throw error;
    return { ...record, form: form.form };
  }
}

export const get_bake = async (id: string) => with_form(await get<BakeRecord>(`/api/bakes/${encodeURIComponent(id)}`));

/**
 * When it was mixed: as the file says, else as the record does. Where both show the same time on the wall the record holds,
 * which knows which of two such hours it was.
 */
export function mixed_of(bake: Pick<BakeRecord, "mixed_at">, form: Form): Moment | undefined {
  const in_file = moment_of(text(form, "mixed"));
  const kept = bake.mixed_at === null ? undefined : from_utc(bake.mixed_at);
  if (in_file === undefined || kept === undefined) return in_file ?? kept;
  return iso(in_file) === iso(kept) ? kept : in_file;
}

function to_send(mixed: Moment | undefined, toml: string, more: More): object {
  return { toml, ...(mixed === undefined ? {} : { mixed_at: to_utc(mixed) }), ...more };
}

/** Saves a recipe over the revision it began with. Errors: what the server says of the recipe; conflict. */
export async function save_bake(bake: Pick<BakeRecord, "id" | "mixed_at">, revision: number, form: Form, more: More = {}): Promise<Bake> {
  const { text: toml } = await post<BakeAnswer>("/api/bake", { bake: form });
  return with_form(await put<BakeRecord>(`/api/bakes/${bake.id}`, { revision, ...to_send(mixed_of(bake, form), toml, more) }));
}

export async function new_bake(bake: AnyBake, more: More = {}): Promise<Bake> {
  const { text: toml, form } = await post<BakeAnswer>("/api/bake", { bake });
  return with_form(await post<BakeRecord>("/api/bakes", to_send(moment_of(text(form, "mixed")), toml, { state: "planned", ...more })));
}

/** A bake on the screen, followed while it changes. */
export function useBake(id: string | undefined): Held<Bake> {
  const held = useAnswer<BakeRecord>(id ? `/api/bakes/${encodeURIComponent(id)}` : undefined, ["bake"]);
  const [bake, set_bake] = useState<Bake | undefined>(undefined);
  const [error, set_error] = useState<unknown>(undefined);
  const record = held.answer;
  const newest = useRef<BakeRecord | undefined>(undefined);
  newest.current = record;
  useLayoutEffect(() => {
    if (!record) return undefined;
    const stop = new AbortController();
    with_form(record, stop.signal).then(
      (answer) => {
        if (stop.signal.aborted) return;
        set_error(undefined);
        set_bake(answer);
      },
      (trouble: unknown) => stop.signal.aborted || set_error(trouble),
    );
    return () => stop.abort();
  }, [record?.id, record?.revision, record?.deleted_at, anew.value]);
  const here = bake && bake.id === record?.id ? bake : undefined;
  return { ...(here ? { answer: here } : {}), asked_ms: held.asked_ms, error: error ?? held.error, asking: held.asking, again: held.again };
}
