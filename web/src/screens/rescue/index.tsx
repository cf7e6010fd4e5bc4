// A dough that is late, or ahead: what can be done, with the chance and the cost of each way.
import { useEffect, useState } from "preact/hooks";
import { post } from "../../api/ask";
import { type Bake, mixed_of } from "../../api/bakes";
import type { RescueAnswer } from "../../api/types";
import { BakeFrame } from "../../parts/bake_frame";
import { Field, Figure } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { when } from "../../parts/ruler";
import { Failed, Waiting } from "../../parts/states";
import { type Moment, after, exact_moment, forecast_moment, hours_between, iso, moment_of, now } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { odds, plain, two_figures, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { useTyping } from "../../state/drafts";
import { read_of_it, useKnownReadings } from "../../state/known_readings";
import { ratios } from "../../state/readings";
import type { Params } from "../../shell/names";
import "./rescue.css";
import { WhenField } from "../../parts/when_field";

export default function RescueScreen({ params }: { params: Params }) {
  return (
    <BakeFrame id={params.id ?? ""} here="Rescue">
      {(record) => <Rescue key={record.id} record={record} />}
    </BakeFrame>
  );
}

const after_mixing = (mixed: Moment, at: Moment | undefined) =>
  at === undefined ? "" : `${Math.ceil(1000 * hours_between(mixed, at)) / 1000}h`;

interface Typed {
  by: string;
  not_before: string;
  risen: number | null;
  places: string;
}

function Rescue({ record }: { record: Bake }) {
  const habits = useHabits();
  const mixed = mixed_of(record, record.form);
  const known = useKnownReadings(record);
  const seen = ratios(known.all.map((r) => ({ at: r.at, height_mm: r.height_mm ?? null, ratio: r.ratio ?? null })), mixed).at(-1)?.ratio;
  const typing = useTyping<Typed>(`rescue.${record.id}`, { by: iso(after(now(), 12)), not_before: "", risen: null, places: "" });
  const { by, not_before, risen, places } = typing.value;
  const [answer, set_answer] = useState<RescueAnswer | undefined>(undefined);
  const [error, set_error] = useState<unknown>(undefined);
  const [asking, set_asking] = useState(false);
  const [wrong_place, set_wrong_place] = useState<string | undefined>(undefined);
  const no_hour = <p>This dough has no hour of mixing yet: write it into the recipe, or press “Mixed just now” on the bench sheet.</p>;
  // What can be done stands here at once, for the hours that are usual; the fields change the question.
  const there = known.there || known.error !== undefined;
  useEffect(() => {
    if (there && mixed !== undefined) void ask();
  }, [there, mixed]);
  const ask = async (event?: Event) => {
    event?.preventDefault();
    if (mixed === undefined) return;
    const degrees = places.split(/[;\s]+/).filter(Boolean).map((t) => typed.warmth(t, habits));
    const bad = degrees.find((d) => !d.ok);
    set_wrong_place(bad && !bad.ok ? bad.why : undefined);
    if (bad) return;
    set_asking(true);
    set_error(undefined);
    try {
      set_answer(
        await post<RescueAnswer>("/api/rescue", {
          bake_id: record.id,
          // In hours, upwards: a reading of this very minute lies before it.
          now: after_mixing(mixed, now()),
          by: after_mixing(mixed, moment_of(by)),
          ...(not_before ? { not_before: after_mixing(mixed, moment_of(not_before)) } : {}),
          unsent: read_of_it(known.all, mixed).unsent,
          // One more look.
          ...(risen !== null ? { risen } : {}),
          places_C: degrees.flatMap((d) => (d.ok ? [Math.round(d.value * 10) / 10] : [])),
        }),
      );
    } catch (trouble) {
      set_answer(undefined);
      set_error(trouble);
    } finally {
      set_asking(false);
    }
  };
  if (mixed === undefined) return no_hour;
  return (
    <div class="rescue-screen">
      <div class="stack">
        {asking && <Waiting what="Trying every way…" />}
        {error ? <Failed error={error} /> : null}
        {answer && <Ways answer={answer} mixed={mixed} />}
      </div>
      <Fold title="Other hours, other places" fact={`needed by ${moment_words(by, habits)}`} open={wrong_place !== undefined || typing.typed_before}>
        <form class="stack" onSubmit={(e) => void ask(e)}>
          <div class="pair">
            <WhenField label="Needed by" value={by} give={(text) => typing.set({ by: text })} />
            <WhenField label="Not before" empty="whenever" value={not_before} give={(text) => typing.set({ not_before: text })} />
            <Figure<number | null>
              label="It stands now at (times its volume)"
              shown={(risen ?? seen) === undefined ? "" : plain(risen ?? seen ?? 1, 2, habits)}
              read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.number(text))}
              give={(times) => typing.set({ risen: times })}
              hint={seen === undefined ? "1.2 is risen by a fifth" : "from the last reading"}
            />
            <Field label={`Places there are (°${habits.warmth})`} hint="such as 28; 4. Empty: the usual ones" wrong={wrong_place}>
              {(attributes) => <input {...attributes} inputMode="text" value={places} onInput={(e) => typing.set({ places: e.currentTarget.value })} />}
            </Field>
          </div>
          <div>
            <button type="submit" class="main" disabled={asking}>
              Ask again
            </button>
          </div>
        </form>
      </Fold>
    </div>
  );
}

const moment_words = (text: string, habits: Habits) => {
  const at = moment_of(text);
  return at === undefined ? text : exact_moment(at, habits);
};

const in_any_case = (way: RescueAnswer["ways"][number]) => way.way === "flatbread";

function Ways({ answer, mixed }: { answer: RescueAnswer; mixed: Moment }) {
  const habits = useHabits();
  const by = forecast_moment(after(mixed, answer.by_h), habits);
  return (
    <section class="stack" aria-labelledby="ways">
      <h2 id="ways">The ways out, best first</h2>
      <p class="quiet">
        Ready by {by}; {answer.rests_on}
      </p>
      <ol class="bare ways">
        {answer.ways.map((way) => (
          <li key={`${way.way} ${way.what}`} class={way.advised ? "sheet advised" : "sheet"}>
            <details open={way.advised}>
              <summary>
                <span class="grow">
                  {way.what}
                  {way.advised && <span class="small"> · our advice</span>}
                </span>
                <strong class="figure">{in_any_case(way) ? "bread in any case" : odds(way.chance_in_time, answer.draws)}</strong>
              </summary>
              <div class="stack tight">
                <p>{way.reason}</p>
                <p hidden={in_any_case(way)}>
                  {odds(way.chance_in_time, answer.draws)} doughs are ready by {by}
                  {way.ready_now ? ": they are ready now" : way.ready.p50_h !== null && (
                    <>
                      ; most likely at {when(way.ready.p50_h, mixed, habits)}
                      {way.ready.p10_h !== null && when(way.ready.p10_h, mixed, habits) !== (way.ready.p90_h === null ? "" : when(way.ready.p90_h, mixed, habits)) && (
                        <span class="quiet">
                          , likely between {when(way.ready.p10_h, mixed, habits)} and{" "}
                          {way.ready.p90_h === null ? "later than is looked ahead" : when(way.ready.p90_h, mixed, habits)}
                        </span>
                      )}
                    </>
                  )}
                  .
                </p>
                {way.cost && <p class="quiet">{way.cost}</p>}
              </div>
            </details>
          </li>
        ))}
      </ol>
      {answer.give_up && <p class="note">{answer.give_up}</p>}
      <p class="quiet small">
        Of {answer.imagined} doughs worked out, {answer.draws} agree with what you see now: {two_figures(answer.rise_now.p10, habits)} to{" "}
        {two_figures(answer.rise_now.p90, habits)} times.
      </p>
      {answer.cautions.length > 0 && (
        <ul>
          {answer.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

