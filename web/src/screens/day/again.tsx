// A plan made again after something came in: what moved, both plans to look at, and which of them is taken.
import { useEffect, useState } from "preact/hooks";
import { Refusal, is_abort, post } from "../../api/ask";
import { on_news } from "../../api/live";
import type { DayAgain, DayAnswer } from "../../api/types";
import { Leaves } from "../../parts/leaves";
import { Failed } from "../../parts/states";
import type { Asked } from "./moves";

const telling = ["reading", "mark", "bake"];
const together_ms = 300;
const ask_again_ms = 2000;

/** How often one of the bakes was read, ticked off or changed since the screen opened. */
function useComeIn(): number {
  const [times, set_times] = useState(0);
  useEffect(
    () =>
      on_news((news) => {
        if (news.what === "everything" || (news.what === "change" && telling.includes(news.change.kind))) set_times((n) => n + 1);
      }),
    [],
  );
  return times;
}

export interface Again {
  answer: DayAgain | undefined;
  error: unknown;
  /** Something came in, and there was no plan that could be made again. */
  worth_a_try?: boolean;
}

/** The plan made again by what has come in since it was made; nothing where nothing has. */
export function useAgain({ text, answer }: Asked): Again {
  const [held, set_held] = useState<Again & { of?: string }>({ answer: undefined, error: undefined });
  const come_in = useComeIn();
  const { plan, made_from, planned } = answer;
  const of = JSON.stringify([text, plan, made_from]);
  useEffect(() => {
    if (!planned) return undefined;
    const stop = new AbortController();
    let later: ReturnType<typeof setTimeout> | undefined;
    const ask = () =>
      void post<DayAgain>("/api/day-again", { day: text, from: plan, made_from }, { signal: stop.signal }).then(
        (again) => set_held({ of, answer: again.told.length === 0 ? undefined : again, error: undefined }),
        (error: unknown) => {
          if (is_abort(error)) return;
          // A server that has no place now has one soon.
          if (error instanceof Refusal && error.problem.code === "too_busy") later = setTimeout(ask, ask_again_ms);
          else set_held({ of, answer: undefined, error });
        },
      );
    // What comes in together is asked once.
    later = setTimeout(ask, come_in === 0 ? 0 : together_ms);
    return () => {
      clearTimeout(later);
      stop.abort();
    };
  }, [of, come_in]);
  const now: Again = held.of === of ? held : { answer: undefined, error: undefined };
  return { ...now, worth_a_try: !planned && come_in > 0 };
}

export const plans = ["New plan", "Plan before"] as const;
export type WhichPlan = (typeof plans)[number];

/** Whether no step that is still to come moved. */
export const holds = (day: DayAnswer, before: DayAnswer) =>
  day.steps.every((step) => step.begun || before.steps.some((one) => one.bake === step.bake && one.step === step.step && one.begins === step.begins));

interface Choosing {
  again: Again;
  before: DayAnswer;
  which: WhichPlan;
  look_at: (which: WhichPlan) => void;
  /** The new plan is the one from now on. */
  take: () => Promise<void>;
  /** The plan before stays, whatever came in. */
  stay: () => Promise<void>;
}

export function PlannedAgain({ again: { answer, error }, before, which, look_at, take, stay }: Choosing) {
  const [wrong, set_wrong] = useState<unknown>(undefined);
  const done = (work: Promise<void>) => {
    set_wrong(undefined);
    work.catch(set_wrong);
  };
  if (!answer) return error ? <Failed error={error} /> : null;
  if (answer.day && holds(answer.day, before)) return <p class="no-print">{answer.told.join(" ")}</p>;
  return (
    <section class="note stack tight no-print" aria-labelledby="planned-again">
      <h3 id="planned-again">{answer.day ? "Planned again, by what came in since" : "The plan cannot be held as it is"}</h3>
      <ul>
        {answer.told.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {answer.day && <Leaves label="Which plan to look at" leaves={plans.map((name) => [name, name] as const)} here={which} give={look_at} />}
      <div class="row">
        {answer.day && (
          <button type="button" onClick={() => done(take())}>
            Take the new plan
          </button>
        )}
        {answer.made_from !== "" && (
          <button type="button" onClick={() => done(stay())}>
            Stay with the plan before
          </button>
        )}
      </div>
      {wrong ? <Failed error={wrong} /> : null}
    </section>
  );
}
