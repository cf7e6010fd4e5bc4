// The levain that goes into the bowl.
import type { Problem } from "../../api/types";
import { Choice } from "../../parts/field";
import { Measure } from "../../parts/measure";
import { levain, set_levain } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { problem_at } from "./problem";
import type { Ingredients } from "../../state/drinks";

const fed_with_ripe = ["feed", "Fed, ripe : flour : water", "", "1:2:1"] as const;
const raised_with_yeast = ["feed", "Yeast : flour : water, by weight", "", "0.002:1:1"] as const;

const kept = [
  ["temperature", "Kept at", "C", "26"],
  ["since_feeding", "Used after (h)", "h", "5; empty: at its peak"],
  ["in_the_cold", "Then in the cold (h)", "h", "48 or 2 days; empty: none"],
  ["doubled_in", "Doubled in its jar in (h)", "h", "4; empty: not watched"],
  ["rose", "Rose in its jar to (times)", "times", "2.5; empty: not watched"],
] as const;

export function LevainFields(props: { draft: BakeDraft; larder: Ingredients; problem: Problem | undefined }) {
  const { form, change } = props.draft;
  const now = levain(form);
  const named = (group: string) => props.larder.filter((i) => i.group === group).map((i) => i.name);
  const yeasts = named("yeast");
  const starters = [...named("starter"), ...yeasts];
  const flours = named("flour");
  const starter = String(now.starter ?? "stiff ripe levain");
  const flour = String(now.flour ?? "white bread flour");
  // A poolish takes little yeast, a levain much ripe starter: whoever changes one for the other feeds it anew.
  const raise = (by: string) => {
    const next = set_levain(form, "starter", by);
    const other = yeasts.includes(by) !== yeasts.includes(starter);
    change(other ? set_levain(next, "feed", (yeasts.includes(by) ? raised_with_yeast : fed_with_ripe)[3]) : next);
  };
  const fields = [yeasts.includes(starter) ? raised_with_yeast : fed_with_ripe, ...kept];
  const options = (all: readonly string[], own: string) => (all.includes(own) ? all : [own, ...all]).map((n) => [n, n] as const);
  return (
    <section class="stack tight" aria-labelledby="levain">
      <h3 id="levain">How it is fed and kept</h3>
      <div class="pair">
        <Choice label="Starter" value={starter} options={options(starters, starter)} give={raise} />
        <Choice label="Flour" value={flour} options={options(flours, flour)} give={(v) => change(set_levain(form, "flour", v))} />
        {fields.map(([key, words, unit, such_as]) => (
          <Measure
            key={key}
            label={words}
            unit={unit}
            text={now[key]}
            such_as={such_as}
            give={(text) => change(set_levain(form, key, text))}
            wrong={problem_at(props.problem, "levain", key)}
          />
        ))}
      </div>
    </section>
  );
}
