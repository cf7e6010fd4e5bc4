// The plan of a day: the chance, the picture, the list by the clock, what is tight and what would free it.
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { DayAnswer, DayChance } from "../../api/types";
import { Fold } from "../../parts/fold";
import { Failed } from "../../parts/states";
import { clock, exact_moment, from_utc } from "../../say/clock";
import { useHabits } from "../../say/say";
import { PlannedAgain, type WhichPlan, useAgain } from "./again";
import { keep_plan, take_calendar } from "./kept";
import { Lists } from "./lists";
import { MoveSheet, type Step, Told } from "./move_sheet";
import { type Asked, useMoves } from "./moves";
import { DayPicture } from "./picture";

const of_100 = (share: number) => Math.round(100 * share);
const at = (text: string) => from_utc(text) ?? (0 as never);

interface Shown {
  asked: Asked;
  /** The fields say something else by now. */
  changed: boolean;
  plan_again: (() => void) | undefined;
  begun_now: ((answer: DayAnswer, step: Step) => void) | undefined;
  /** It is this plan from now on. */
  settle: (on: Asked) => void;
}

export function DayPlan({ asked, changed, plan_again, begun_now, settle }: Shown) {
  const { text, kept } = asked;
  const habits = useHabits();
  const before = useMoves(asked);
  const again = useAgain({ text, answer: before.answer });
  const made_again = again.answer?.day ?? undefined;
  const after = useMoves({ text, answer: made_again ?? before.answer });
  const [which, look_at] = useState<WhichPlan>("New plan");
  const moves = made_again && which === "New plan" ? after : before;
  const [moving, set_moving] = useState<string | undefined>(undefined);
  const keep = async (plan: DayAnswer) => {
    await keep_plan({ text, answer: plan });
    settle({ text, answer: plan, kept: true });
  };
  const go_on_by = async (plan: DayAnswer) => (kept ? keep(plan) : settle({ text, answer: plan }));
  const { answer } = moves;
  const step = answer.steps.find((one) => key_of(one) === moving);
  const open = (bake: string, what: string) => {
    if (answer.steps.some((one) => one.bake === bake && one.step === what && !one.begun)) set_moving(`${bake}\n${what}`);
  };
  return (
    <section class="stack day-plan" aria-labelledby="plan" aria-live="polite">
      <h2 id="plan">
        {answer.name}, by {clock(at(answer.bread), habits)}
      </h2>
      <PlannedAgain
        again={again}
        before={before.answer}
        which={which}
        look_at={look_at}
        take={() => go_on_by(after.answer)}
        stay={() => go_on_by({ ...before.answer, made_from: again.answer?.made_from ?? before.answer.made_from })}
      />
      {answer.planned && <Take asked={{ text, answer }} keep={() => keep(answer)} />}
      {(changed || again.worth_a_try) && (
        <p class="note no-print row">
          {changed ? "The fields have changed since this plan." : "A dough was read or something was ticked off since."}
          {plan_again && (
            <button type="button" onClick={plan_again}>
              Plan it again
            </button>
          )}
        </p>
      )}
      {answer.planned ? (
        <>
          {answer.chance && <Chance all={answer.chance} by_the_clock={answer.by_the_clock} />}
          <Said title="Where it may fail" fact={answer.doubts[0]} lines={answer.doubts} />
          <Said title="Where bakes would meet" lines={answer.collisions} />
          <Fold title="Who and what is taken" fact="a picture of hands and places">
            <DayPicture answer={answer} move={(bake, what, to) => void moves.move(bake, what, to)} open={open} />
          </Fold>
          <div class="no-print stack tight">
            {!step && <Told moves={moves} />}
            {moves.moved > 0 && (
              <div>
                <button type="button" onClick={moves.undo}>
                  Take the last move back
                </button>
              </div>
            )}
          </div>
          <ByTheClock answer={answer} open={open} />
          <EachBake answer={answer} />
          <Lists answer={answer} />
          {step && (
            <MoveSheet
              key={moving}
              step={step}
              moves={moves}
              begun_now={
                begun_now &&
                (() => {
                  set_moving(undefined);
                  begun_now(answer, step);
                })
              }
              close={() => set_moving(undefined)}
            />
          )}
        </>
      ) : (
        <>
          <p class="note" role="alert">
            <strong>There is no plan.</strong>
          </p>
          <Said title="Why not" lines={answer.why_not} open />
        </>
      )}
      <Said title="Take care" fact={`${answer.cautions.length} things`} lines={answer.cautions} seldom />
    </section>
  );
}

const key_of = (step: Step) => `${step.bake}\n${step.step}`;

/** What is done with a plan: the house goes by it, a phone alarms by it, a wall shows it. */
function Take({ asked, keep }: { asked: Asked; keep: () => Promise<void> }) {
  const [said, set_said] = useState("");
  const [error, set_error] = useState<unknown>(undefined);
  const done = (work: Promise<void>, words: string) => {
    set_error(undefined);
    work.then(() => set_said(words), set_error);
  };
  useEffect(() => set_said(""), [asked.answer]);
  return (
    <div class="row no-print">
      <button type="button" onClick={() => done(keep(), "Today shows what is next.")}>
        Go by this plan
      </button>
      <button type="button" onClick={() => done(take_calendar(asked), "")}>
        Calendar with alarms
      </button>
      <button type="button" onClick={() => print()}>
        Print
      </button>
      <span role="status">{said}</span>
      {error ? <Failed error={error} /> : null}
    </div>
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

function Said({ lines, ...fold }: { title: string; lines: readonly string[]; fact?: ComponentChildren; seldom?: boolean; open?: boolean }) {
  if (lines.length === 0) return null;
  return (
    <Fold {...fold}>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </Fold>
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

/** How many of the next steps stand open on a phone. */
const next_steps = 5;

interface Steps {
  steps: DayAnswer["steps"];
  open: (bake: string, step: string) => void;
}

/** What has begun, what is next, what comes after it. */
function ByTheClock({ answer, open }: { answer: DayAnswer; open: Steps["open"] }) {
  const habits = useHabits();
  const begun = answer.steps.filter((step) => step.begun);
  const to_come = answer.steps.filter((step) => !step.begun);
  const last = to_come.at(-1);
  return (
    <section class="stack tight" aria-labelledby="by-the-clock">
      <h2 id="by-the-clock">By the clock</h2>
      {begun.length > 0 && (
        <Fold title="Already started" fact={begun.length === 1 ? "1 step" : `${begun.length} steps`}>
          <StepTable name="Already started" steps={begun} open={open} />
        </Fold>
      )}
      <StepTable name="The next steps" steps={to_come.slice(0, next_steps)} open={open} />
      {to_come.length > next_steps && last && (
        <Fold title="After that" fact={`${to_come.length - next_steps} more, until ${exact_moment(at(last.begins), habits)}`}>
          <StepTable name="After that" steps={to_come.slice(next_steps)} open={open} />
        </Fold>
      )}
    </section>
  );
}

function StepTable({ name, steps, open }: Steps & { name: string }) {
  const habits = useHabits();
  return (
    <table class="day-list">
      <caption class="unseen">{name}</caption>
      <thead>
        <tr>
          <th scope="col">when</th>
          <th scope="col">what</th>
          <th scope="col">hands, places</th>
        </tr>
      </thead>
      <tbody>
        {steps.map((step) => (
          <tr key={`${step.bake} ${step.step}`}>
            <td class="figure">{exact_moment(at(step.begins), habits)}</td>
            <td>
              {step.begun ? (
                <>
                  <strong>{step.step}</strong> {step.bake} (started)
                </>
              ) : (
                <button type="button" class="day-step" aria-label={`${step.step}: ${step.bake}, move it`} onClick={() => open(step.bake, step.step)}>
                  <strong>{step.step}</strong> {step.bake}
                </button>
              )}
            </td>
            <td>{with_what(step)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function EachBake({ answer }: { answer: DayAnswer }) {
  return (
    <Fold title="Each bake" fact={least(answer)}>
      <ul>
        {answer.each.map((one, i) => (
          <li key={one.bake}>
            {answer.ways[i] ?? one.bake}; <span class="figure">{of_100(one.chance)} of 100</span>
          </li>
        ))}
      </ul>
    </Fold>
  );
}

/** The bake that is least sure. */
function least({ each }: DayAnswer): string | undefined {
  const one = [...each].sort((a, b) => a.chance - b.chance)[0];
  return one && `${one.bake} ${of_100(one.chance)} of 100`;
}
