// What no recipe tells and a label needs: names, dates, the maker; in the United States what was measured in the loaf.
import type { Rules } from "../../api/shop";
import { Fold } from "../../parts/fold";
import { Words } from "./words";

/** A field of the label by its key, over what the bake file says. */
export type LabelFields = Readonly<Record<string, string>>;

type Asked = readonly (readonly [key: string, label: string, hint: string])[];

const everywhere: Asked = [
  ["maker", "Who answers for it", "a name"],
  ["address", "Address", "of the maker"],
];
const in_the_union: Asked = [
  ["legal_name", "What such a bread is called", "beside its own name, such as wheat bread with mead"],
  ["best_before", "Best before", "2026-12-03, or same day"],
  ["storage", "How to keep it", ""],
  ["lot", "Lot", ""],
  ["origin", "Where the flour comes from", "where the label names another place"],
  ["largest_side", "Largest side of the pack", "such as 160 cm2"],
];
const in_america: Asked = [
  ["slices", "Slices of a loaf", "a serving is slices near 50 g"],
  ["trans_fat", "Trans fat in 100 g", "measured, such as 0.1 g"],
  ["cholesterol", "Cholesterol in 100 g", "such as 12 mg"],
  ["vitamin_d", "Vitamin D in 100 g", "such as 0.2 ug"],
  ["iron", "Iron in 100 g", "such as 1.4 mg"],
];

export function LabelFieldsForm(props: {
  id: string;
  rules: Rules;
  fields: LabelFields;
  known: LabelFields;
  wrong: (key: string) => string | undefined;
  give: (key: string, text: string) => void;
}) {
  const asked = [...(props.rules === "us" ? in_america : in_the_union), ...everywhere];
  return (
    <Fold
      title="What no recipe tells"
      fact={`${asked.filter(([key]) => (props.fields[key] ?? props.known[key] ?? "") !== "").length} of ${asked.length} filled in`}
      seldom
      open={asked.some(([key]) => props.wrong(key) !== undefined)}
    >
      <div class="pair">
        {asked.map(([key, label, hint]) => (
          <Words
            key={key}
            name={`half.label.${props.id}.${key}`}
            label={label}
            hint={hint}
            wrong={props.wrong(key)}
            value={props.fields[key] ?? props.known[key] ?? ""}
            give={(text) => props.give(key, text)}
          />
        ))}
      </div>
    </Fold>
  );
}
