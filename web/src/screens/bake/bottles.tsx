// What the labels of the bottles say. It goes over what the larder knows.
import type { Problem } from "../../api/types";
import { Measure } from "../../parts/measure";
import { bottle, set_bottle } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { problem_at } from "./problem";

export const label_keys = [
  ["strength", "Strength (% vol)", "% vol", "11.5"],
  ["sugar", "Sugar (g/L)", "g/L", "8"],
  ["ph", "pH", "", "3.4"],
  ["acid", "Acid (g/L)", "g/L", "6 g/L as tartaric"],
  ["free_sulphite", "Sulphite, free (mg/L)", "mg/L", "30"],
  ["total_sulphite", "Sulphite, in all (mg/L)", "mg/L", "90"],
  ["price", "Price", "", "9.60 EUR / 750 mL"],
] as const;

export function LabelFields(props: {
  keys?: readonly string[];
  label: Readonly<Record<string, unknown>>;
  give: (label: Record<string, unknown>) => void;
  wrong?: (key: string) => string | undefined;
}) {
  const give = (key: string, text: string | undefined) => {
    const { [key]: _, ...rest } = props.label;
    // pH is a bare number in the bake file; everything else is text with its unit.
    const value = key === "ph" && text !== undefined && /^\d+([.,]\d+)?$/.test(text) ? Number(text.replace(",", ".")) : text;
    props.give(value === undefined ? rest : { ...props.label, [key]: value });
  };
  return (
    <div class="pair">
      {label_keys.filter(([key]) => !props.keys || props.keys.includes(key)).map(([key, words, unit, such_as]) => (
        <Measure key={key} label={words} unit={unit} text={props.label[key]} such_as={such_as} give={(text) => give(key, text)} wrong={props.wrong?.(key)} />
      ))}
    </div>
  );
}

/** The label of the bottle that a line of the bowl is poured from. */
export function Bottle(props: { draft: BakeDraft; name: string; problem: Problem | undefined }) {
  const { form, change } = props.draft;
  const { name } = props;
  return (
    <section class="stack tight" aria-label={`The bottle of ${name}`}>
      <h3>What the bottle says</h3>
      <LabelFields
        label={bottle(form, name)}
        give={(label) => change(set_bottle(form, name, Object.keys(label).length ? label : undefined))}
        wrong={(key) => problem_at(props.problem, "bottle", name, key)}
      />
    </section>
  );
}
