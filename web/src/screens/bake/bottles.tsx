// What the labels of the bottles say. It goes over what the larder knows.
import type { Bowl, Problem } from "../../api/types";
import { Field } from "../../parts/field";
import { bottle, lines, set_bottle } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { problem_at } from "./problem";
import type { Ingredients } from "./recipe";

export const label_keys = [
  ["strength", "Strength", "11.5 % vol"],
  ["sugar", "Sugar", "8 g/L"],
  ["ph", "pH", "3.4"],
  ["acid", "Acid", "6 g/L as tartaric"],
  ["free_sulphite", "Sulphite, free", "30 mg/L"],
  ["total_sulphite", "Sulphite, in all", "90 mg/L"],
  ["price", "Price", "9.60 EUR / 750 mL"],
] as const;

export function LabelFields(props: {
  keys?: readonly string[];
  label: Readonly<Record<string, unknown>>;
  give: (label: Record<string, unknown>) => void;
  wrong?: (key: string) => string | undefined;
}) {
  return (
    <div class="pair">
      {label_keys.filter(([key]) => !props.keys || props.keys.includes(key)).map(([key, words, such_as]) => (
        <Field key={key} label={words} hint={`such as ${such_as}`} wrong={props.wrong?.(key)}>
          {(attributes) => (
            <input
              {...attributes}
              value={String(props.label[key] ?? "")}
              onInput={(e) => {
                const { [key]: _, ...rest } = props.label;
                const typed = e.currentTarget.value;
                // pH is a bare number in the bake file; everything else is text with its unit.
                const value = key === "ph" && /^\d+([.,]\d+)?$/.test(typed.trim()) ? Number(typed.replace(",", ".")) : typed;
                props.give(typed.trim() === "" ? rest : { ...props.label, [key]: value });
              }}
            />
          )}
        </Field>
      ))}
    </div>
  );
}

export function Bottles(props: { draft: BakeDraft; larder: Ingredients; bowl: Bowl | undefined; problem: Problem | undefined }) {
  const { form, change } = props.draft;
  const group = new Map(props.larder.map((i) => [i.name, i.group]));
  const ingredient = (form.ingredient ?? {}) as Record<string, { like?: string; group?: string }>;
  const is_drink = (name: string) =>
    (ingredient[name]?.group ?? group.get(ingredient[name]?.like ?? "") ?? group.get(name)) === "drink";
  const drinks = lines(form).filter((l) => is_drink(l.name) || Object.keys(bottle(form, l.name)).length > 0);
  return (
    <>
      {drinks.map(({ name }) => (
        <details key={name}>
          <summary>The bottle of {name}</summary>
          <LabelFields
            label={bottle(form, name)}
            give={(label) => change(set_bottle(form, name, Object.keys(label).length ? label : undefined))}
            wrong={(key) => problem_at(props.problem, "bottle", name, key)}
          />
        </details>
      ))}
    </>
  );
}
