// The levain that goes into the bowl.
import type { Problem } from "../../api/types";
import { Choice, Field } from "../../parts/field";
import { levain, set_levain } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { problem_at } from "./problem";
import type { Ingredients } from "./recipe";

const fields = [
  ["feed", "Fed, ripe : flour : water", "1:2:1"],
  ["temperature", "Kept at", "26 C"],
  ["since_feeding", "Used after", "5 h; empty: at its peak"],
  ["in_the_cold", "Then in the cold", "2 days; empty: none"],
  ["doubled_in", "Doubled in its jar in", "4 h; empty: not watched"],
  ["rose", "Rose in its jar to", "2.5 times; empty: not watched"],
] as const;

export function LevainFields(props: { draft: BakeDraft; larder: Ingredients; problem: Problem | undefined }) {
  const { form, change } = props.draft;
  const now = levain(form);
  const starters = props.larder.filter((i) => i.group === "starter").map((i) => i.name);
  const flours = props.larder.filter((i) => i.group === "flour").map((i) => i.name);
  const starter = String(now.starter ?? "stiff ripe levain");
  const flour = String(now.flour ?? "white bread flour");
  const options = (all: readonly string[], own: string) => (all.includes(own) ? all : [own, ...all]).map((n) => [n, n] as const);
  return (
    <details>
      <summary>The levain</summary>
      <div class="pair">
        <Choice label="Starter" value={starter} options={options(starters, starter)} give={(v) => change(set_levain(form, "starter", v))} />
        <Choice label="Flour" value={flour} options={options(flours, flour)} give={(v) => change(set_levain(form, "flour", v))} />
        {fields.map(([key, words, such_as]) => (
          <Field key={key} label={words} hint={`such as ${such_as}`} wrong={problem_at(props.problem, "levain", key)}>
            {(attributes) => (
              <input
                {...attributes}
                value={String(now[key] ?? "")}
                onInput={(e) => change(set_levain(form, key, e.currentTarget.value.trim() === "" ? undefined : e.currentTarget.value))}
              />
            )}
          </Field>
        ))}
      </div>
    </details>
  );
}
