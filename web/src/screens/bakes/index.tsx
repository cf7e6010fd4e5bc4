// All bakes, newest first, found by any word of their name, recipe or remarks.
import { useEffect, useState } from "preact/hooks";
import { get, words_of } from "../../api/ask";
import { get_bake } from "../../api/bakes";
import type { BakeRecordList, LarderListAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { state_words } from "../../parts/bake_frame";
import { Choice, Field } from "../../parts/field";
import { Failed, Refused, Waiting } from "../../parts/states";
import { type Moment, ago, clock, date, from_utc, iso, month_words, now } from "../../say/clock";
import { useHabits } from "../../say/say";
import { address, go, link } from "../../shell/router";
import { give_up } from "../../state/drafts";
import { begin_again, draft_of, unsaved_bakes } from "../../state/new_bakes";
import { can_undo } from "../../state/undo";
import "./bakes.css";

const at_once = 50;

type Listed = BakeRecordList["bakes"][number];

export default function BakesScreen() {
  const [words, set_words] = useState(address.value.query.get("search") ?? "");
  const [state, set_state] = useState<"" | Listed["state"]>("");
  const [month, set_month] = useState("");
  const [drink, set_drink] = useState("");
  const drinks = (useAnswer<LarderListAnswer>("/api/larder").answer?.ingredients ?? []).filter((i) => i.group === "drink").map((i) => i.name);
  const text = [words, month, drink].filter(Boolean).join(" ");
  const query = new URLSearchParams({ limit: String(at_once), ...(text ? { text } : {}), ...(state ? { state } : {}) });
  const held = useAnswer<BakeRecordList>(`/api/bakes?${query}`, ["bake"]);
  const [more, set_more] = useState<{ of: string; bakes: readonly Listed[] }>({ of: "", bakes: [] });
  const [last, set_last] = useState<BakeRecordList | undefined>(undefined);
  useEffect(() => {
    if (held.answer) set_last(held.answer);
  }, [held.answer]);
  const shown = held.answer ?? last;
  const further = more.of === query.toString() ? more.bakes : [];
  const all = [...(shown?.bakes ?? []), ...further];
  // There is nothing to search.
  const none = shown !== undefined && all.length === 0 && text === "" && state === "";
  const fetch_more = async () => {
    const answer = await get<BakeRecordList>(`/api/bakes?${query}&offset=${all.length}`);
    set_more({ of: query.toString(), bakes: [...further, ...answer.bakes] });
  };
  return (
    <div class="stack">
      <div class="row apart">
        <h1>Bakes</h1>
        <a class="button main" href={link("new")}>
          New bake
        </a>
      </div>
      <NotYet />
      {!none && (
        <div class="pair">
          <Field label="Search everything">
            {(attributes) => <input {...attributes} type="search" value={words} onInput={(e) => set_words(e.currentTarget.value)} />}
          </Field>
          <Choice
            label="Which"
            value={state}
            options={[
              ["", "all"],
              ["planned", "planned"],
              ["live", "running"],
              ["finished", "finished"],
              ["given_up", "given up"],
              ["draft", "drafts"],
            ]}
            give={set_state}
          />
          <Choice label="Month" value={month} options={[["", "any"], ...months(24)]} give={set_month} />
          <Choice label="Drink" value={drink} options={[["", "any"], ...drinks.map((d) => [d, d] as const)]} give={set_drink} />
        </div>
      )}
      {!shown && (held.error ? <Failed error={held.error} again={held.again} /> : <Waiting what="Turning the pages…" />)}
      {shown && (
        <p class="unseen" role="status">
          {shown.total} bakes
        </p>
      )}
      {none && (
        <p>
          No bake is written down yet. <a href={link("first")}>Your first bake</a> takes a minute.
        </p>
      )}
      {shown && all.length === 0 && !none && <p>No bake has these words in it.</p>}
      <ul class="bare bake-list">
        {all.map((bake) => (
          <BakeRow key={bake.id} bake={bake} />
        ))}
      </ul>
      {shown && all.length < shown.total && (
        <p>
          <button type="button" onClick={() => void fetch_more()}>
            Older ones
          </button>
        </p>
      )}
    </div>
  );
}

/** Bakes begun in this browser and not saved. */
function NotYet() {
  const all = unsaved_bakes();
  if (all.length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby="not-yet">
      <h2 id="not-yet">Not saved yet</h2>
      <ul class="bare stack tight">
        {all.map(({ id, title, kept_at }) => (
          <li key={id} class="sheet not-saved">
            <span>
              <a href={link("new", id)}>
                <strong>{title || "New bake"}</strong>
              </a>{" "}
              <span class="quiet small">typed {ago(from_utc(kept_at))}, in this browser</span>
            </span>
            <button type="button" aria-label={`Discard it: ${title || "New bake"}`} onClick={() => can_undo(`${title || "The new bake"} is given up.`, give_up(draft_of(id)))}>
              Discard it
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The same recipe once more, as a new bake that knows which one it comes from. */
function Again({ bake }: { bake: Listed }) {
  const [wrong, set_wrong] = useState("");
  const again = async () => {
    try {
      go(link("new", begin_again(await get_bake(bake.id))));
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <>
      <button type="button" class="plain" aria-label={`Bake again: ${bake.title}`} onClick={() => void again()}>
        Bake again
      </button>
      <Refused why={wrong} />
    </>
  );
}

/** The last months, as they are searched for and said. */
function months(how_many: number): (readonly [string, string])[] {
  const today = new Date(now());
  return Array.from({ length: how_many }, (_, i) => {
    const first = new Date(today.getFullYear(), today.getMonth() - i, 15);
    return [iso(first.getTime() as Moment).slice(0, 7), month_words(first.getTime() as Moment)] as const;
  });
}

function BakeRow({ bake }: { bake: Listed }) {
  const habits = useHabits();
  const mixed = bake.mixed_at === null ? undefined : from_utc(bake.mixed_at);
  return (
    <li class="bake-row">
      <a href={link("bake", bake.id, ...(bake.state === "live" ? ["read"] : []))}>
        {bake.photo !== null && <img src={`/api/photos/${bake.photo}/thumbnail`} alt="" loading="lazy" />}
        <strong>{bake.title}</strong>
        <span class="quiet small">
          {state_words[bake.state]}
          {bake.readings > 0 && ` · ${bake.readings} ${bake.readings === 1 ? "reading" : "readings"}`}
          {mixed !== undefined && ` · ${mixed > now() ? "to be mixed" : "mixed"} ${date(mixed, habits)}, ${clock(mixed, habits)}`}
        </span>
      </a>
      <Again bake={bake} />
    </li>
  );
}
