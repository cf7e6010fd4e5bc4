// What was read of a dough or a jar, which stages were ticked, which loaves came out and how they look, on its way to the server. It is first put on the shelf, then sent, then taken off; so it
// outlives a server that is away, a reload and a phone that sleeps. Its id makes sending twice harmless.
import { batch, signal } from "@preact/signals";
import { Away, Refusal, ask, conflicting, get, post, put, remove } from "../api/ask";
import { spread } from "../api/live";
import type { JarLook } from "../api/test_bakes";
import type { LoafRecord, LoafRecordChange, MarkRecord, MarkRecordChange, PhotoRecord, ReadingRecord, ReadingRecordChange, TestBakeRecord } from "../api/types";
import { now, to_utc } from "../say/clock";
import { type Shelf, shelf } from "./shelf";
import { with_look } from "./test_bake";

/** A reading with the id that this browser chose for it. */
export type Typed = ReadingRecordChange & { id: string };

/** A height of a jar of a test bake, written down or taken out. */
export interface LookChange {
  id: string;
  test: string;
  look: JarLook;
  taken_out: boolean;
}

/** A stage of a dough ticked off, or the tick taken off again. */
export interface TickChange {
  id: string;
  mark: MarkRecordChange & { id: string };
  taken_off: boolean;
}

/** A photo of a loaf, its bytes as they are sent. */
export interface PhotoTaken {
  id: string;
  loaf: string;
  taken_at: string;
  picture: Blob;
}

export type NewLoaf = LoafRecordChange & { id: string };

export type Waiting = ({ reading: Typed } | { jar: LookChange } | { tick: TickChange } | { loaf: NewLoaf } | { photo: PhotoTaken }) & {
  /** When it was noted here, in milliseconds. */
  noted_ms?: number;
  /** It was noted without another time being typed, so it goes by this device's clock. */
  by_clock?: boolean;
  /** Why the server will not take it, once it has said so. */
  refused?: string;
};

/** What the server has taken, and when: an answer asked before does not hold it. */
export type Sent = Waiting & { sent_ms: number };

export type Send = (waiting: Waiting) => Promise<unknown>;

const what_of = (waiting: Waiting): { id: string } =>
  "reading" in waiting ? waiting.reading : "jar" in waiting ? waiting.jar : "tick" in waiting ? waiting.tick : "loaf" in waiting ? waiting.loaf : waiting.photo;
export const id_of = (waiting: Waiting) => what_of(waiting).id;
export const readings_of = (waiting: readonly Waiting[]) => waiting.filter((w): w is Extract<Waiting, { reading: Typed }> => "reading" in w);
export const looks_of = (waiting: readonly Waiting[], test: string) =>
  waiting.flatMap((w) => ("jar" in w && w.jar.test === test && w.refused === undefined ? [w.jar] : []));

export const ticks_of = (waiting: readonly Waiting[], bake: string) =>
  waiting.flatMap((w) => ("tick" in w && w.tick.mark.bake === bake && w.refused === undefined ? [w.tick] : []));

export const loaves_of = (waiting: readonly Waiting[], bake: string) => waiting.flatMap((w) => ("loaf" in w && w.loaf.bake === bake && w.refused === undefined ? [w.loaf] : []));
export const photos_of = (waiting: readonly Waiting[], loaf: string) => waiting.flatMap((w) => ("photo" in w && w.photo.loaf === loaf && w.refused === undefined ? [w.photo] : []));

/** "2 readings and 1 tick are", for words that follow; nothing when nothing waits. */
export function counted(waiting: readonly Waiting[]): string {
  const number = (key: "tick" | "loaf" | "photo") => waiting.filter((w) => key in w).length;
  const [ticks, loaves, photos] = [number("tick"), number("loaf"), number("photo")];
  const count = (n: number, one: string, many = `${one}s`) => (n === 0 ? [] : [`${n} ${n === 1 ? one : many}`]);
  const parts = [...count(waiting.length - ticks - loaves - photos, "reading"), ...count(ticks, "tick"), ...count(loaves, "loaf", "loaves"), ...count(photos, "photo")];
  const all = parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1) ?? ""}`;
  return all && `${all} ${waiting.length === 1 ? "is" : "are"}`;
}

const most_tries = 8;
const most_sent = 50;

/** Lays it over the newest of what the daybook has, whoever else writes into the same test bake. */
async function send_look({ test, look, taken_out }: LookChange): Promise<void> {
  const route = `/api/test-bakes/${encodeURIComponent(test)}`;
  let record = await get<TestBakeRecord>(route);
  for (let tries = 1; ; tries++) {
    try {
      await put<TestBakeRecord>(route, { revision: record.revision, document: with_look(record.document, look, taken_out) });
      return;
    } catch (error) {
      const newer = conflicting<TestBakeRecord>(error);
      if (!newer || tries === most_tries) throw error;
      record = newer;
    }
  }
}

async function send_tick({ mark, taken_off }: TickChange): Promise<void> {
  if (taken_off) await remove(`/api/marks/${encodeURIComponent(mark.id)}`);
  else await post<MarkRecord>("/api/marks", mark);
}

const send_photo = ({ id, loaf, taken_at, picture }: PhotoTaken) =>
  ask<PhotoRecord>("POST", `/api/photos?${new URLSearchParams({ id, loaf, taken_at }).toString()}`, picture);

const to_server: Send = async (waiting) => {
  if ("reading" in waiting) await post<ReadingRecord>("/api/readings", waiting.reading);
  else if ("jar" in waiting) await send_look(waiting.jar);
  else if ("tick" in waiting) await send_tick(waiting.tick);
  else if ("loaf" in waiting) await post<LoafRecord>("/api/loaves", waiting.loaf);
  else await send_photo(waiting.photo);
  // The news may find no line to come by yet.
  const kind = "reading" in waiting ? "reading" : "jar" in waiting ? "test_bake" : "tick" in waiting ? "mark" : "loaf" in waiting ? "loaf" : "photo";
  spread({ what: "change", change: { number: 0, kind, id: id_of(waiting), revision: 1, what: "saved", at: to_utc(now()) } });
};

/** Whether the same may be taken later: the fault is not in what was sent. */
const may_pass = ({ problem }: Refusal) =>
  problem.status >= 500 || ["not_paired", "too_many", "conflict", "restored", "stale_page"].includes(problem.code);

/** An id nobody else makes; works without a secure context too. */
export function new_id(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
}

export class Outbox {
  readonly waiting = signal<Waiting[]>([]);
  /** What left the outbox last. */
  readonly sent = signal<Sent[]>([]);
  private sending: Promise<void> | undefined;

  constructor(
    private readonly kept: Shelf<Waiting>,
    private readonly send: Send = to_server,
  ) {}

  async open(): Promise<void> {
    this.waiting.value = (await this.kept.all()).map(({ item }) => item).sort(by_time);
  }

  /**
   * Keeps it and sends it; where the browser has no room to keep it, it is sent all the same. `is_kept` is called as it is: what
   * stood for it on the screen until then can go, so that it is never there twice nor not at all.
   */
  async add(waiting: Waiting, is_kept?: () => void): Promise<void> {
    const noted = { ...waiting, noted_ms: waiting.noted_ms ?? Date.now() };
    await this.kept.put(id_of(noted), noted).catch(() => undefined);
    batch(() => {
      this.waiting.value = [...this.waiting.value, noted].sort(by_time);
      is_kept?.();
    });
    await this.flush();
  }

  async forget(id: string): Promise<void> {
    await this.kept.drop(id).catch(() => undefined);
    this.waiting.value = this.waiting.value.filter((w) => id_of(w) !== id);
  }

  /** Puts all readings that go by this device's clock so much later, and sends them. */
  async set_later(by_ms: number): Promise<void> {
    for (const waiting of this.waiting.value) {
      if (!("reading" in waiting) || !waiting.by_clock) continue;
      const { refused: _, ...rest } = waiting;
      const at = to_utc((Date.parse(waiting.reading.at) + by_ms) as ReturnType<typeof now>);
      await this.replace({ ...rest, reading: { ...waiting.reading, at } });
    }
    await this.flush();
  }

  /** Sends what waits, oldest first; stops at the first that finds nobody. */
  flush(): Promise<void> {
    this.sending ??= this.send_all().finally(() => {
      this.sending = undefined;
    });
    return this.sending;
  }

  private async send_all(): Promise<void> {
    for (;;) {
      const next = this.waiting.value.find((w) => w.refused === undefined);
      if (!next) return;
      try {
        await this.send(next);
      } catch (error) {
        if (error instanceof Refusal && !may_pass(error)) {
          await this.replace({ ...next, refused: error.message });
          continue;
        }
        if (error instanceof Away || error instanceof Refusal) return;
        throw error;
      }
      this.sent.value = [...this.sent.value.slice(1 - most_sent), { ...next, sent_ms: performance.now() }];
      await this.forget(id_of(next));
    }
  }

  private async replace(by: Waiting): Promise<void> {
    await this.kept.put(id_of(by), by).catch(() => undefined);
    this.waiting.value = this.waiting.value.map((w) => (id_of(w) === id_of(by) ? by : w));
  }
}

// A jar's heights and a dough's ticks in the order in which they were made and taken back.
const time_of = (w: Waiting) => ("reading" in w ? Date.parse(w.reading.at) : (w.noted_ms ?? 0));
const by_time = (a: Waiting, b: Waiting) => time_of(a) - time_of(b);

let the_outbox: Promise<Outbox> | undefined;

/** The one outbox of this tab. */
export function outbox(): Promise<Outbox> {
  the_outbox ??= shelf<Waiting>("readings").then(async (kept) => {
    const box = new Outbox(kept);
    await box.open();
    return box;
  });
  return the_outbox;
}
