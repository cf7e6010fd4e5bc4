// What the bakes of a culture have taught about it: against the published figures, in words and figures, and each bake by itself, with a
// switch to leave it out. The server learns from a bake when it is first asked, and keeps what it learned.
import { useEffect, useState } from "preact/hooks";
import { anew, conflicting, put, words_of } from "../../api/ask";
import { on_news } from "../../api/live";
import type { CultureMemory, CultureRecord } from "../../api/types";
import { Fold } from "../../parts/fold";
import { Progress } from "../../parts/long_work";
import { Failed } from "../../parts/states";
import { date, from_utc } from "../../say/clock";
import { lasting, plain, useHabits } from "../../say/say";
import { useLongWork } from "../../state/long_work";
import { link } from "../../shell/router";

const settle_ms = 400;

type Batch = CultureMemory["batches"][number];

export function Memory({ culture }: { culture: CultureRecord }) {
  const work = useLongWork<CultureMemory>("culture");
  const [kept, set_kept] = useState<CultureMemory | undefined>(undefined);
  const [news, set_news] = useState(0);
  const ask = (anew = false) => {
    work.stop();
    work.begin({ culture_id: culture.id, ...(anew ? { anew } : {}) });
  };
  useEffect(() => ask(), [culture.id, culture.revision, news, anew.value]);
  useEffect(() => {
    // Many readings that come at once are one reason to ask.
    let timer: ReturnType<typeof setTimeout> | undefined;
    const off = on_news((one) => {
      if (one.what !== "change" || !["bake", "reading", "mark"].includes(one.change.kind)) return;
      clearTimeout(timer);
      timer = setTimeout(() => set_news((n) => n + 1), settle_ms);
    });
    return () => {
      off();
      clearTimeout(timer);
    };
  }, []);
  // What was known stays on the screen while it is learned anew.
  useEffect(() => void (work.answer && set_kept(work.answer)), [work.answer]);
  const none = kept && kept.batches.length + kept.from_elsewhere.length === 0;
  return (
    <section class="stack tight" aria-labelledby="memory">
      <h2 id="memory">What it has taught</h2>
      {work.running && <Progress work={work} what={kept ? "Learning again…" : "Reading the doughs…"} />}
      {work.error ? <Failed error={work.error} again={() => ask()} /> : null}
      {!kept && !work.running && !work.error && (
        <div>
          <button type="button" onClick={() => ask()}>
            Ask its doughs
          </button>
        </div>
      )}
      {none && (
        <p class="quiet">
          Nothing yet. Name this culture in a bake and read the dough twice: what your own doughs do tells more than any book.
        </p>
      )}
      {kept && !none && (
        <>
          <AgainstTheBook kept={kept} />
          <Fold title="Its batches" fact={`${kept.batches.length + kept.from_elsewhere.length}, ${culture.left_out.length} left out`}>
            <ul class="bare stack tight">
              {kept.batches.map((batch) => (
                <BatchLine key={batch.bake} batch={batch} culture={culture} />
              ))}
              {kept.from_elsewhere.map((batch) => (
                <li key={batch.name} class="quiet">
                  {batch.name}, {batch.readings} readings, from elsewhere
                </li>
              ))}
            </ul>
            {!work.running && (
              <div>
                <button type="button" onClick={() => ask(true)}>
                  Learn from all of them again
                </button>
              </div>
            )}
          </Fold>
        </>
      )}
    </section>
  );
}

function AgainstTheBook({ kept }: { kept: CultureMemory }) {
  const habits = useHabits();
  const known = kept.differences.filter((one) => one.known);
  const unknown = kept.differences.filter((one) => !one.known).map((one) => one.about);
  const figure = (value: number) => plain(value, 2, habits);
  return (
    <div class="stack tight" data-testid="against-the-book">
      <p class="quiet small">A new bake on it starts from this; 4 of 5 such cultures lie between the figures.</p>
      {known.length > 0 && (
        <dl class="between">
          {known.map((one) => [
            <dt key={one.about}>{one.about}</dt>,
            <dd key={`${one.about}.`}>
              {one.words}{" "}
              <span class="quiet">
                · <span class="figure">{figure(one.p10_over_the_book)}</span> to <span class="figure">{figure(one.p90_over_the_book)}</span> times the
                book
              </span>
            </dd>,
          ])}
        </dl>
      )}
      <p>
        <span class="quiet">Its levain's age:</span> {kept.levain_age.words}.
      </p>
      {unknown.length > 0 && <p class="quiet">Nothing known yet about {unknown.join(", ")}.</p>}
    </div>
  );
}

function BatchLine({ batch, culture }: { batch: Batch; culture: CultureRecord }) {
  const habits = useHabits();
  const [wrong, set_wrong] = useState("");
  const mixed = from_utc(batch.mixed_at);
  const leave_out = async (out: boolean, over: CultureRecord): Promise<void> => {
    const others = over.left_out.filter((id) => id !== batch.bake);
    const left_out = out ? [...others, batch.bake] : others;
    try {
      await put(`/api/cultures/${over.id}`, { revision: over.revision, left_out });
      set_wrong("");
    } catch (error) {
      // What was changed meanwhile, here or elsewhere, holds beside it.
      const newer = conflicting<CultureRecord>(error);
      if (newer) return leave_out(out, newer);
      set_wrong(words_of(error));
    }
    return undefined;
  };
  const age = batch.levain_past_peak_h;
  const levain = age === null ? "" : `, levain ${lasting(Math.abs(age))} ${age < 0 ? "before" : "past"} its peak`;
  return (
    <li class="note stack tight">
      <p>
        <a href={link("bake", batch.bake, "read")}>{batch.title}</a>{" "}
        <span class="quiet small">
          {mixed === undefined ? batch.mixed_at : date(mixed, habits)}, {plain(batch.readings, 0, habits)} readings{levain}
        </span>
      </p>
      {batch.trouble && <p>Nothing can be learned from it: {batch.trouble}</p>}
      {!batch.trouble && (
        <>
          {batch.taught.length === 0 ? <p>It did as a typical starter does.</p> : <p>{batch.taught.join("; ")}.</p>}
          <label class="row">
            <input type="checkbox" checked={!culture.left_out.includes(batch.bake)} onChange={(e) => void leave_out(!e.currentTarget.checked, culture)} />
            {" learns from it"}
          </label>
        </>
      )}
      {wrong && <p role="alert">{wrong}</p>}
    </li>
  );
}
