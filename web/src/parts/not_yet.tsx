// In place of a whole screen whose record is not here: on its way, out of reach, in the trash, or none at all.
import { useState } from "preact/hooks";
import { Refusal, post, words_of } from "../api/ask";
import type { Held } from "../api/use";
import { date, from_utc } from "../say/clock";
import { useHabits } from "../say/say";
import { link } from "../shell/router";
import { Failed, Refused, Waiting } from "./states";

interface Back {
  /** The screen that lists such records, and its name. */
  list: string;
  words: string;
}

interface NotYetProps extends Partial<Back> {
  /** The name of the screen, or of the record it shows: "bake". */
  what: string;
  held: Pick<Held<unknown>, "error" | "again">;
  waiting: string;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

const is_none = (error: unknown) => error instanceof Refusal && error.problem.code === "not_found";

export function NotYet({ what, held: { error, again }, waiting, list = "", words = "To today" }: NotYetProps) {
  if (!error) return <Waiting what={waiting} />;
  return (
    <div class="stack">
      <h1>{is_none(error) ? `No such ${what}` : capital(what)}</h1>
      {is_none(error) ? <p>No {what} is at this address: it was deleted for good, or the address is mistyped.</p> : <Failed error={error} again={again} />}
      <ToList list={list} words={words} />
    </div>
  );
}

function ToList({ list, words }: Back) {
  return (
    <div>
      <a class="button" href={link(list)}>
        {words}
      </a>
    </div>
  );
}

interface Deleted {
  id: string;
  title: string;
  deleted_at: string | null;
}

/** `route`: of its kind, "/api/bakes". */
export function InTrash({ record, what, route, ...back }: Back & { record: Deleted; what: string; route: string }) {
  const habits = useHabits();
  const [wrong, set_wrong] = useState("");
  const since = record.deleted_at === null ? undefined : from_utc(record.deleted_at);
  return (
    <div class="stack">
      <h1>{record.title || capital(what)}</h1>
      <p>
        This {what} is in the trash{since === undefined ? "" : ` since ${date(since, habits)}`}. Until it is taken back it takes part in nothing.
      </p>
      <div>
        <button type="button" onClick={() => void post(`${route}/${encodeURIComponent(record.id)}/undo`, {}).catch((error: unknown) => set_wrong(words_of(error)))}>
          Take it back
        </button>
      </div>
      <Refused why={wrong} />
      <ToList {...back} />
    </div>
  );
}
