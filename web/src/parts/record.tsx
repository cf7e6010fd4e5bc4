// A record of the daybook being changed in a form: what differs is kept as a draft at every key and sent with the revision it was
// laid over. What another changed meanwhile stays; where both changed the same, both are shown and the baker decides.
import { useState } from "preact/hooks";
import { after_restore, conflicting, put, words_of } from "../api/ask";
import { epoch } from "../api/told";
import { draft, drop_draft, give_up, keep_draft } from "../state/drafts";
import { can_undo } from "../state/undo";

interface Kept<Fields> {
  changes: Partial<Fields>;
  /** What stood in those fields when they were changed first. */
  base: Partial<Fields>;
}

export interface Clash {
  field: string;
  mine: unknown;
  theirs: unknown;
}

export interface Changing<Fields> {
  value: Fields;
  unsaved: boolean;
  /** Whether something was unsaved already when the screen opened. */
  unsaved_before: boolean;
  set: (what: Partial<Fields>) => void;
  save: () => Promise<boolean>;
  reset: () => void;
  /** Fields that another changed too, to something else. */
  clashes: readonly Clash[];
  /** They differ because a copy of the daybook was put back. */
  restored: boolean;
  mine_holds: () => Promise<boolean>;
  theirs_holds: () => void;
  wrong: string;
}

const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);
const keys_of = <Fields extends object>(of: Partial<Fields>) => Object.keys(of) as (keyof Fields)[];

/** Changed here and elsewhere, to different ends. */
export function clashing<Fields extends object>({ changes, base }: Kept<Fields>, now: Fields): (keyof Fields)[] {
  return keys_of(changes).filter((key) => !same(now[key], base[key]) && !same(now[key], changes[key]));
}

const most_tries = 4;

/** `body`: how changed fields are sent, for a record whose fields are not its own. */
export function useChanging<Fields extends { id: string; revision: number }>(
  route: string,
  record: Fields,
  body: (changes: Partial<Fields>, over: Fields) => object = (changes) => changes,
  read: (answer: unknown) => Fields = (answer) => answer as Fields,
): Changing<Fields> {
  const name = `record.${route.slice("/api/".length)}.${record.id}`;
  const kept = draft<Kept<Fields>>(name)?.value;
  const { changes, base }: Kept<Fields> = { changes: {}, base: {}, ...kept };
  const [unsaved_before] = useState(kept !== undefined);
  const [answered, set_answered] = useState<{ fields: Fields; epoch: number } | undefined>(undefined);
  const [restored, set_restored] = useState(false);
  const [wrong, set_wrong] = useState("");
  // The newest of both, in the daybook of now.
  const newest = answered?.epoch === epoch.value && answered.fields.revision > record.revision ? answered.fields : record;
  const keep = (next: Kept<Fields>) => {
    const left = keys_of(next.changes).filter((key) => !same(next.changes[key], next.base[key]));
    const only = (of: Partial<Fields>) => Object.fromEntries(left.map((key) => [key, of[key]])) as Partial<Fields>;
    if (left.length === 0) drop_draft(name);
    else keep_draft<Kept<Fields>>(name, { changes: only(next.changes), base: only(next.base) }, newest.revision);
  };

  /** What was typed while it was being sent is still to be saved. */
  const settle = (sent: Partial<Fields>) => {
    const now: Kept<Fields> = { changes: {}, base: {}, ...draft<Kept<Fields>>(name)?.value };
    keep({ changes: now.changes, base: { ...now.base, ...sent } });
    set_wrong("");
    set_restored(false);
  };
  const send = async ({ changes, base }: Kept<Fields>, over: Fields): Promise<boolean> => {
    let onto = over;
    for (let tries = 1; tries <= most_tries; tries++) {
      if (clashing({ changes, base }, onto).length > 0) return false;
      try {
        const fields = read(await put(`${route}/${record.id}`, { ...body(changes, onto), revision: onto.revision }));
        set_answered({ fields, epoch: epoch.peek() });
        settle(changes);
        return true;
      } catch (error) {
        const theirs = conflicting<unknown>(error);
        if (!theirs) {
          set_wrong(words_of(error));
          return false;
        }
        onto = read(theirs);
        set_restored(after_restore(error));
        set_answered({ fields: onto, epoch: epoch.peek() });
      }
    }
    set_wrong("Others keep changing this: save once more.");
    return false;
  };
  const based_on = (now: Fields) => ({ changes, base: Object.fromEntries(keys_of(changes).map((key) => [key, now[key]])) as Partial<Fields> });

  return {
    value: { ...newest, ...changes },
    unsaved: Object.keys(changes).length > 0,
    unsaved_before,
    set: (what) => {
      const before: Kept<Fields> = { changes: {}, base: {}, ...draft<Kept<Fields>>(name)?.value };
      const first = Object.fromEntries(keys_of(what).map((key) => [key, newest[key]])) as Partial<Fields>;
      keep({ changes: { ...before.changes, ...what }, base: { ...first, ...before.base } });
    },
    save: () => send({ changes, base }, newest),
    reset: () => {
      set_wrong("");
      can_undo("Your changes are dropped.", give_up(name));
    },
    clashes: clashing({ changes, base }, newest).map((key) => ({ field: String(key), mine: changes[key], theirs: newest[key] })),
    restored,
    mine_holds: () => {
      const mine = based_on(newest);
      keep(mine);
      return send(mine, newest);
    },
    theirs_holds: () => {
      const clash = new Set(clashing({ changes, base }, newest));
      const ours = Object.fromEntries(keys_of(changes).filter((key) => !clash.has(key)).map((key) => [key, changes[key]])) as Partial<Fields>;
      const undo = give_up(name);
      keep({ changes: ours, base });
      can_undo("Your changes are dropped.", undo);
      set_restored(false);
      set_wrong("");
    },
    wrong,
  };
}

const said = (value: unknown) => (value === null || value === undefined || value === "" ? "empty" : typeof value === "object" ? JSON.stringify(value) : String(value));

/** "left_mL": "left mL", as it can be read. */
const named = (field: string) => field.replaceAll("_", " ");

export function SaveRow<Fields>({ changing, also }: { changing: Changing<Fields>; also?: preact.ComponentChildren }) {
  const { clashes } = changing;
  return (
    <>
      {clashes.length > 0 && (
        <div class="note stack tight" role="alert">
          <p>
            <strong>{changing.restored ? "The daybook was put back from a copy since you typed this." : "Changed elsewhere meanwhile."}</strong> Nothing is
            lost; say which one holds.
          </p>
          <ul>
            {clashes.map(({ field, mine, theirs }) => (
              <li key={field}>
                {named(field)}: yours “{said(mine)}”, {changing.restored ? "in the copy" : "theirs"} “{said(theirs)}”
              </li>
            ))}
          </ul>
          <div class="row">
            <button type="button" class="main" onClick={() => void changing.mine_holds()}>
              Keep mine
            </button>
            <button type="button" onClick={changing.theirs_holds}>
              {changing.restored ? "Keep the copy’s" : "Keep theirs"}
            </button>
          </div>
        </div>
      )}
      {changing.wrong && (
        <p class="note" role="alert">
          {changing.wrong}
        </p>
      )}
      <div class="row">
        {clashes.length === 0 && (
          <button type="button" class="main" disabled={!changing.unsaved} onClick={() => void changing.save()}>
            Save
          </button>
        )}
        <button type="button" disabled={!changing.unsaved} onClick={changing.reset}>
          As it was
        </button>
        {also}
      </div>
      {changing.unsaved && <p class="quiet small">Not saved yet; kept in this browser.</p>}
    </>
  );
}
