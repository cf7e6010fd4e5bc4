// What is in the way: the hours each thing costs; with the hours of a dough that has none of it they make those of this one.
import type { Bowl, ForeseeAnswer } from "../api/types";
import type { Habits } from "../say/habits";
import type { Moment } from "../say/clock";
import { lasting, plain, two_figures } from "../say/say";
import { when } from "./ruler";

/** What stands behind a cost, from the bowl. */
export function reason(factor: string, bowl: Bowl, habits: Habits): string {
  const figure = (value: number) => two_figures(value, habits);
  switch (factor) {
    case "alcohol": return `${figure(bowl.ethanol_in_water_g_per_L)} g in a litre of the dough's water`;
    case "salt": return `${figure(bowl.salt_in_water_g_per_L)} g in a litre of the dough's water`;
    case "sugar": return `${figure(bowl.sugar_in_water_g_per_L)} g in a litre of the dough's water, brought by what is added`;
    case "acid": return `pH ${plain(bowl.ph_at_mixing, 1, habits)} to start`;
    case "sulphite": return `${figure(bowl.free_sulphite_mg_per_kg)} mg of it free in a kilogram of dough`;
    case "sorbate": return `a preservative: ${figure(bowl.sorbate_mg_per_kg)} mg in a kilogram of dough`;
    case "hungry levain": return "past its peak: feed it before";
    case "weak flour": return "holds less than white flour";
    default: return "";
  }
}

export function InTheWay(props: { answer: ForeseeAnswer; mixed: Moment | undefined; habits: Habits }) {
  const { in_the_way: way, bowl } = props.answer;
  const most = Math.max(...way.costs.map((c) => Math.abs(c.said_h)), 1);
  const costing = way.costs.filter((c) => c.said_h !== 0);
  const nothing = way.costs.filter((c) => c.said_h === 0);
  const largest = costing.reduce((a, c) => Math.max(a, c.said_h), 0);
  return (
    <section class="stack tight" aria-labelledby="in-the-way">
      <h2 id="in-the-way">What slows it</h2>
      {way.bare_h !== null && (
        <p class="quiet">With nothing in the way, ready at {when(way.bare_h, props.mixed, props.habits)}.</p>
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
          <dd key={`${factor} why`} class="why">{reason(factor, bowl, props.habits)}</dd>,
        ])}
      </dl>
      {nothing.length > 0 && (
        <p class="small quiet">
          Nothing worth naming from {nothing.map(({ factor }) => factor).join(", ")}.
        </p>
      )}
      {costing.length === 0 && <p>Nothing slows this dough.</p>}
    </section>
  );
}
