// One culture: what it has taught, its feedings, and how much to feed for a wanted hour.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { CultureRecord, FeedingRecordChange, FeedingRecordList, LarderListAnswer, LevainAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice, Field, Figure } from "../../parts/field";
import { SaveRow, useChanging } from "../../parts/record";
import { InTrash, NotYet } from "../../parts/not_yet";
import { Refused } from "../../parts/states";
import { clock, date, forecast_moment, after, from_utc, iso, now, to_utc } from "../../say/clock";
import { lasting, odds, plain, times, useHabits, warmth, warmth_figure, weight } from "../../say/say";
import * as typed from "../../say/typed";
import type { Params } from "../../shell/names";
import { go, link } from "../../shell/router";
import { useTyping } from "../../state/drafts";
import { fed_weights } from "../../state/feeding";
import { throw_away } from "../../state/undo";
import { Memory } from "./memory";
import { WhenField } from "../../parts/when_field";

const to_cultures = { list: "cultures", words: "To the cultures" };

export default function CultureScreen({ params }: { params: Params }) {
  const held = useAnswer<CultureRecord>(`/api/cultures/${encodeURIComponent(params.id ?? "")}`, ["culture"]);
  const { answer } = held;
  if (!answer) return <NotYet what="culture" held={held} waiting="Looking into the jar…" {...to_cultures} />;
  if (answer.deleted_at !== null) return <InTrash record={answer} what="culture" route="/api/cultures" {...to_cultures} />;
  return (
    <div class="stack">
      <h1>{answer.title}</h1>
      <p class="quiet">most like {answer.starter || "nothing named"}</p>
      <Memory culture={answer} />
      <Feed culture={answer} />
      <Feedings culture={answer} />
      <Change culture={answer} />
    </div>
  );
}

function Feed({ culture }: { culture: CultureRecord }) {
  const habits = useHabits();
  const typing = useTyping(`feed.${culture.id}`, {
    need_g: 300 as number,
    at_C: (culture.temperature_C || 26) as number,
    feed: culture.feed || "1:2:1",
    peak_at: iso(after(now(), 8)),
  });
  const { need_g, at_C, feed, peak_at } = typing.value;
  const [answer, set_answer] = useState<LevainAnswer | undefined>(undefined);
  const [said, set_said] = useState("");
  const ask = async () => {
    set_said("");
    try {
      set_answer(
        await post<LevainAnswer>("/api/levain", {
          ...(culture.starter ? { starter: culture.starter } : {}),
          feed,
          need_g,
          temperature_C: at_C,
          fed_at: iso(now()),
          peak_at,
        }),
      );
    } catch (error) {
      set_answer(undefined);
      set_said(words_of(error));
    }
  };
  const note = async (feeding: Pick<FeedingRecordChange, "ripe_g" | "flour_g" | "water_g">) => {
    try {
      await post("/api/feedings", { culture: culture.id, at: to_utc(now()), flour: culture.flour, temperature_C: at_C, ...feeding });
      typing.clear();
      set_said("Noted.");
    } catch (error) {
      set_said(words_of(error));
    }
  };
  return (
    <section class="stack" aria-labelledby="feed">
      <h2 id="feed">Feed it for a certain hour</h2>
      <div class="pair">
        <Figure label={`Wanted (${habits.weight})`} shown={plain(habits.weight === "oz" ? need_g / 28.349523125 : need_g, habits.weight === "oz" ? 1 : 0, habits)} read={(t) => typed.weight(t, habits)} give={(g) => typing.set({ need_g: g })} />
        <WhenField label="At its peak" value={peak_at} give={(text) => typing.set({ peak_at: text })} />
        <Figure label={`Kept at (°${habits.warmth})`} shown={warmth_figure(at_C, habits)} read={(t) => typed.warmth(t, habits)} give={(C) => typing.set({ at_C: C })} />
        <Field label="Ripe : flour : water" hint="the water for one part of flour is kept">
          {(attributes) => <input {...attributes} value={feed} onInput={(e) => typing.set({ feed: e.currentTarget.value })} />}
        </Field>
      </div>
      <div class="row">
        <button type="button" class="main" onClick={() => void ask()}>
          How much?
        </button>
        <button type="button" onClick={() => void note(fed_weights(feed, need_g) ?? {})}>
          Fed just now, {feed}
        </button>
      </div>
      <p role="status">{said}</p>
      {answer && (
        <div class="note stack tight">
          <p>
            <strong class="figure">{weight(answer.ripe_g, habits)}</strong> ripe,{" "}
            <strong class="figure">{weight(answer.flour_g, habits)}</strong> flour,{" "}
            <strong class="figure">{weight(answer.water_g, habits)}</strong> water
          </p>
          {answer.peak.p50_h !== null && (
            <p>
              At its peak {forecast_moment(after(now(), answer.peak.p50_h), habits)}, most likely
              {answer.peak.p10_h !== null && answer.peak.p90_h !== null &&
                `; likely between ${forecast_moment(after(now(), answer.peak.p10_h), habits)} and ${forecast_moment(after(now(), answer.peak.p90_h), habits)}`}
              .
            </p>
          )}
          <p class="quiet">
            It then stands at {times(answer.largest_volume_ratio, habits)}, pH {plain(answer.ph_at_peak, 1, habits)}.
            {answer.peak.p50_h === null && ` No peak within the time looked at (${odds(1, answer.draws)}).`}
          </p>
          <div>
            <button
              type="button"
              onClick={() => void note({ ripe_g: answer.ripe_g, flour_g: answer.flour_g, water_g: answer.water_g })}
            >
              Fed like this just now
            </button>
          </div>
        </div>
      )}
    </section>
  );
}

function Feedings({ culture }: { culture: CultureRecord }) {
  const habits = useHabits();
  const [wrong, set_wrong] = useState("");
  const held = useAnswer<FeedingRecordList>(`/api/feedings?owner=${culture.id}&limit=50`, ["feeding"]);
  const feedings = [...(held.answer?.feedings ?? [])].sort((a, b) => (a.at < b.at ? 1 : -1));
  return (
    <section class="stack tight" aria-labelledby="feedings">
      <h2 id="feedings">Feedings</h2>
      {feedings.length === 0 && <p class="quiet">None noted yet.</p>}
      <Refused why={wrong} />
      <ul class="bare">
        {feedings.map((f) => {
          const at = from_utc(f.at);
          return (
            <li key={f.id} class="entry">
              <span>
                {at === undefined ? f.at : `${date(at, habits)}, ${clock(at, habits)}`} · {weight(f.ripe_g, habits)} ripe, {weight(f.flour_g, habits)} {f.flour || "flour"}, {weight(f.water_g, habits)} water
                {f.temperature_C !== null && ` · ${warmth(f.temperature_C, habits)}`}
                {at !== undefined && f === feedings[0] && <span class="quiet"> · {lasting(Math.max(0, (now() - at) / 3_600_000))} ago</span>}
              </span>
              <button type="button" class="plain" aria-label={`Throw the feeding of ${f.at.slice(0, 16).replace("T", " ")} away`} onClick={() => throw_away("feedings", f.id, "The feeding").then(held.again, (error: unknown) => set_wrong(words_of(error)))}>
                ✕
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Change({ culture }: { culture: CultureRecord }) {
  const changing = useChanging<CultureRecord>("/api/cultures", culture);
  const [wrong, set_wrong] = useState("");
  const away_with_it = () =>
    throw_away("cultures", culture.id, culture.title).then(
      () => go(link("trash")),
      (error: unknown) => set_wrong(words_of(error)),
    );
  const larder = useAnswer<LarderListAnswer>("/api/larder").answer?.ingredients ?? [];
  const starters = larder.filter((i) => i.group === "starter").map((i) => i.name);
  const own = changing.value.starter;
  return (
    <details open={changing.unsaved_before}>
      <summary>This culture</summary>
      <div class="stack">
        <div class="pair">
          <Field label="Name">
            {(attributes) => <input {...attributes} value={changing.value.title} onInput={(e) => changing.set({ title: e.currentTarget.value })} />}
          </Field>
          <Choice label="Most like" value={own} options={[...new Set([own, ...starters])].map((s) => [s, s || "not said"] as const)} give={(starter) => changing.set({ starter })} />
        </div>
        <Field label="Remarks">
          {(attributes) => <textarea {...attributes} value={changing.value.note} onInput={(e) => changing.set({ note: e.currentTarget.value })} />}
        </Field>
        <SaveRow
          changing={changing}
          also={
            <button type="button" onClick={() => void away_with_it()}>
              Into the trash
            </button>
          }
        />
        <Refused why={wrong} />
      </div>
    </details>
  );
}
