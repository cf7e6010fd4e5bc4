// What is next by the plan the house goes by.
import type { Today } from "../../api/types";
import { exact_moment, from_utc, type Moment } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { link } from "../../shell/router";

export function ByThePlan({ day, at, habits }: { day: Today["day"]; at: Moment; habits: Habits }) {
  if (day === null) return null;
  const [first, ...later] = day.next;
  return (
    <section class="sheet stack tight" aria-labelledby="by-the-plan">
      <h2 id="by-the-plan">
        By the plan: <a href={link("day")}>{day.name}</a>
      </h2>
      {first === undefined ? (
        <p>Nothing is left to do but the bread.</p>
      ) : (
        <>
          <Line step={first} at={at} habits={habits} strong />
          {later.map((step) => (
            <Line key={`${step.bake} ${step.step}`} step={step} at={at} habits={habits} />
          ))}
        </>
      )}
      {day.anew.map((line) => (
        <p key={line} class="quiet">
          {line}
        </p>
      ))}
      {day.anew.length > 0 && (
        <p>
          <a href={link("day")}>Look at both plans, and take one</a>
        </p>
      )}
    </section>
  );
}

type Step = NonNullable<Today["day"]>["next"][number];

function Line({ step, at, habits, strong }: { step: Step; at: Moment; habits: Habits; strong?: boolean }) {
  const begins = from_utc(step.begins);
  const when = begins === undefined ? "" : begins <= at ? "now" : exact_moment(begins, habits);
  return (
    <p class={strong ? "next" : "quiet"}>
      <span class="figure">{when}</span> {step.step}: {step.bake}
    </p>
  );
}
