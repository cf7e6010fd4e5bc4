// The plan of a day: the chance, the picture, the list by the clock, what is tight and what would free it.
import type { DayAnswer, DayChance } from "../../api/types";
import { clock, exact_moment, from_utc } from "../../say/clock";
import { useHabits } from "../../say/say";
import { DayPicture } from "./picture";

const of_100 = (share: number) => Math.round(100 * share);
const at = (text: string) => from_utc(text) ?? (0 as never);

/** `changed`: the fields say something else by now. */
export function DayPlan({ answer, changed }: { answer: DayAnswer; changed: boolean }) {
  const habits = useHabits();
  return (
    <section class="stack day-plan" aria-labelledby="plan" aria-live="polite">
      <div class="row apart">
        <h2 id="plan">
          {answer.name}, by {clock(at(answer.bread), habits)}
        </h2>
        <button type="button" onClick={() => print()}>
          Print
        </button>
      </div>
      {changed && <p class="note no-print">The fields say something else by now: plan it again.</p>}
      {answer.planned ? (
        <>
          {answer.chance && <Chance all={answer.chance} by_the_clock={answer.by_the_clock} />}
          <Said title="Where bakes would meet" lines={answer.collisions} />
          <Said title="Where it may fail" lines={answer.doubts} />
          <DayPicture answer={answer} />
          <ByTheClock answer={answer} />
          <EachBake answer={answer} />
        </>
      ) : (
        <>
          <p class="note" role="alert">
            <strong>There is no plan.</strong>
          </p>
          <Said title="Why not" lines={answer.why_not} />
        </>
      )}
      <Said title="Mind" lines={answer.cautions} />
    </section>
  );
}

function Chance({ all, by_the_clock }: { all: DayChance; by_the_clock: DayChance | null }) {
  return (
    <p class="day-chance">
      All bread in time and no dough past its window, the doughs looked at and the plan worked by hand:{" "}
      <strong class="figure">{of_100(all.chance)} of 100</strong> times ({of_100(all.low)} to {of_100(all.high)}, counted on {all.draws} fresh draws).
      {by_the_clock && <span class="quiet"> By the clock alone, nobody looking: {of_100(by_the_clock.chance)} of 100.</span>}
    </p>
  );
}

function Said({ title, lines }: { title: string; lines: readonly string[] }) {
  const id = title.replace(/\W+/g, "-").toLowerCase();
  if (lines.length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby={id}>
      <h3 id={id}>{title}</h3>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}

const place_words: Record<string, (n: number) => string> = {
  mixer: (n) => (n === 1 ? "mixer" : `${n} mixers`),
  bench: (n) => (n === 1 ? "bench" : `${n} places at the bench`),
  fridge: (n) => `fridge, for ${n}`,
  deck: (n) => (n === 1 ? "1 deck" : `${n} decks`),
};

/** "1 pair, mixer": what a step takes. */
function with_what(step: DayAnswer["steps"][number]): string {
  const hands = step.hands === 0 ? [] : [step.hands === 1 ? "1 pair" : `${step.hands} pairs`];
  const places = step.places.map((place) => {
    const [what = "", n = ""] = place.split(" ");
    return place_words[what]?.(Number(n)) ?? place;
  });
  return [...hands, ...places].join(", ");
}

function ByTheClock({ answer }: { answer: DayAnswer }) {
  const habits = useHabits();
  return (
    <section class="stack tight" aria-labelledby="by-the-clock">
      <h3 id="by-the-clock">By the clock</h3>
      <table class="day-list">
        <thead>
          <tr>
            <th scope="col">when</th>
            <th scope="col">what</th>
            <th scope="col">hands, places</th>
          </tr>
        </thead>
        <tbody>
          {answer.steps.map((step) => (
            <tr key={`${step.bake} ${step.step}`}>
              <td class="figure">{exact_moment(at(step.begins), habits)}</td>
              <td>
                <strong>{step.step}</strong> {step.bake}
                {step.begun && " (begun)"}
              </td>
              <td>{with_what(step)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function EachBake({ answer }: { answer: DayAnswer }) {
  return (
    <section class="stack tight" aria-labelledby="each">
      <h3 id="each">Each bake</h3>
      <ul>
        {answer.each.map((one, i) => (
          <li key={one.bake}>
            {answer.ways[i] ?? one.bake}; <span class="figure">{of_100(one.chance)} of 100</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
