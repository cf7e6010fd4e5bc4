// What is in the way: the hours each thing costs; with the hours of a dough that has none of it they make those of this one.
import type { ForeseeAnswer } from "../api/types";
import type { Habits } from "../say/habits";
import type { Moment } from "../say/clock";
import { lasting, plain, warmth } from "../say/say";
import { when } from "./ruler";

const bites_below = 4.4; // pH

/** What stands behind a cost, as the terminal says it. */
function reason(factor: string, { bowl, temperature_C }: ForeseeAnswer, habits: Habits): string {
  const ph = plain(bowl.ph_at_mixing, 1, habits);
  switch (factor) {
    case "alcohol": return `${plain(bowl.ethanol_in_water_g_per_L, 0, habits)} g/L in the dough's water`;
    case "salt": return `${plain(bowl.salt_in_water_g_per_L, 0, habits)} g/L in the dough's water`;
    case "sugar": return `${plain(bowl.sugar_in_water_g_per_L, 0, habits)} g/L from what is added`;
    case "acid": return `pH ${ph} to start`;
    case "sulphite": return bowl.ph_at_mixing >= bites_below ? `at pH ${ph} it has no bite` : `at pH ${ph} some of it bites`;
    case "sorbate": return "preservative: slows yeast";
    case "hops": return "slow bacteria, not yeast";
    case "hungry levain": return "past its peak: feed it before";
    case "weak flour": return "holds less than white flour";
    case "cold":
    case "warmth": return warmth(temperature_C, habits);
    default: return "";
  }
}

export function InTheWay(props: { answer: ForeseeAnswer; mixed: Moment | undefined; habits: Habits }) {
  const way = props.answer.in_the_way;
  const most = Math.max(...way.costs.map((c) => Math.abs(c.said_h)), 1);
  const costing = way.costs.filter((c) => c.said_h !== 0);
  const nothing = way.costs.filter((c) => c.said_h === 0);
  const largest = costing.reduce((a, c) => Math.max(a, c.said_h), 0);
  return (
    <section class="stack tight" aria-labelledby="in-the-way">
      <h2 id="in-the-way">What slows it</h2>
      {way.bare_h !== null && (
        <p class="small quiet">With nothing in the way, ready at {when(way.bare_h, props.mixed, props.habits)}.</p>
      )}
      <dl class="way" data-testid="in-the-way">
        {costing.map(({ factor, said_h }) => [
          <dt key={factor}>{factor}</dt>,
          <dd key={`${factor} bar`} class={said_h === largest ? "bar most" : "bar"} aria-hidden="true">
            <i class={said_h < 0 ? "gain" : ""} style={{ width: `${(100 * Math.abs(said_h)) / most}%` }} />
          </dd>,
          <dd key={`${factor} cost`} class="cost">
            {said_h < 0 ? `${lasting(-said_h)} sooner` : `${way.at_least ? "over " : ""}${lasting(said_h)}`}
          </dd>,
          <dd key={`${factor} why`} class="why">{reason(factor, props.answer, props.habits)}</dd>,
        ])}
      </dl>
      {nothing.length > 0 && (
        <p class="small quiet">
          Nothing from {nothing.map(({ factor }) => factor).join(", ")}.
        </p>
      )}
      {costing.length === 0 && <p>Nothing slows this dough.</p>}
    </section>
  );
}
