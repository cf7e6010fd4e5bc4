// What is got ready before the weighing: the levain's feeding, how warm the liquid must be.
import type { Bake } from "../../api/bakes";
import type { Bowl } from "../../api/types";
import type { Habits } from "../../say/habits";
import { scale_figure, useHabits, weight } from "../../say/say";
import { levain } from "../../state/bake";
import { fed_weights } from "../../state/feeding";
import { Liquid } from "./liquid";

interface Shown {
  record: Bake;
  bowl: Bowl;
}

export function Build({ record, bowl }: Shown) {
  const habits = useHabits();
  return (
    <section class="stack tight" aria-labelledby="ready-first">
      <h2 id="ready-first">Levain and liquid</h2>
      <Levain record={record} bowl={bowl} habits={habits} />
      <Liquid form={record.form} habits={habits} />
    </section>
  );
}

type Props = Shown & { habits: Habits };

function Levain({ record, bowl, habits }: Props) {
  const line = bowl.lines.find((l) => l.ingredient === "levain");
  const feed = String(levain(record.form).feed ?? "1:2:1");
  const parts = line && fed_weights(feed, line.plan_g);
  if (!line || !parts) return null;
  return (
    <p>
      Levain, {weight(line.plan_g, habits)} fed {feed}: <strong class="figure">{scale_figure(parts.ripe_g, habits)}</strong> ripe,{" "}
      <strong class="figure">{scale_figure(parts.flour_g, habits)}</strong> flour, <strong class="figure">{scale_figure(parts.water_g, habits)}</strong> water
      ({habits.weight}); a little more for what sticks to the bowl.
    </p>
  );
}
