// One line of the bowl: its amount to type or step, what it counts, and what it weighs.
import type { Bowl } from "../../api/types";
import { Field, Figure } from "../../parts/field";
import { percent_figure, useHabits, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { type AmountUnit, type Form, type Line, amount_parts, amount_step, amount_text, amount_units, liquid, names_in, remove_line, set_amount } from "../../state/bake";

export function BowlLine(props: {
  line: Line;
  form: Form;
  change: (to: Form) => void;
  bowl: Bowl | undefined;
  wrong: string | undefined;
  focus: boolean;
}) {
  const { line, form, change, bowl, wrong } = props;
  const habits = useHabits();
  const parts = amount_parts(line.amount);
  const weighed = weighed_line(form, line.name, bowl);
  const give = (figure: number | undefined, unit: AmountUnit) => change(set_amount(form, line.name, amount_text(figure, unit)));
  const step = (way: 1 | -1) => {
    if (!parts || parts.figure === undefined) return;
    const size = amount_step(parts.unit, way === 1 ? parts.figure : parts.figure - 1e-9);
    give(Math.max(0, Math.round((parts.figure + way * size) * 1000) / 1000), parts.unit);
  };
  return (
    <div class="bowl-line">
      <span class="name">{line.name}</span>
      <span class="figure">{weighed ? weight(weighed.actual_g, habits) : ""}</span>
      <button type="button" class="plain away" aria-label={`Take ${line.name} out`} onClick={() => change(remove_line(form, line.name))}>
        ✕
      </button>
      {parts ? (
        <div class="amount">
          {parts.figure !== undefined && (
            <div class="steps">
              <button type="button" class="square" aria-label={`Less ${line.name}`} onClick={() => step(-1)}>
                −
              </button>
              <Figure
                label={`Amount of ${line.name}`}
                hidden_label
                shown={percent_figure(parts.figure, habits)}
                read={not_negative}
                give={(n) => give(n, parts.unit)}
                wrong={wrong}
                input={props.focus ? { autoFocus: true } : {}}
              />
              <button type="button" class="square" aria-label={`More ${line.name}`} onClick={() => step(1)}>
                +
              </button>
            </div>
          )}
          <select
            aria-label={`What the amount of ${line.name} counts`}
            value={parts.unit}
            onChange={(e) => give(figure_in(e.currentTarget.value as AmountUnit, weighed, bowl, parts.figure), e.currentTarget.value as AmountUnit)}
          >
            {amount_units
              .filter((unit) => !unit.endsWith("the liquid") || liquid(form) !== undefined || unit === parts.unit)
              .map((unit) => (
                <option key={unit} value={unit}>
                  {unit_words[unit] ?? unit}
                </option>
              ))}
          </select>
        </div>
      ) : (
        <div class="amount">
          <Field label={`Amount of ${line.name}`} hidden_label wrong={wrong}>
            {(attributes) => <input {...attributes} value={line.amount} onInput={(e) => change(set_amount(form, line.name, e.currentTarget.value))} />}
          </Field>
        </div>
      )}
      {wrong && parts?.figure === undefined && (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}

// Short enough to be read whole on a phone.
const unit_words: Partial<Record<AmountUnit, string>> = {
  "%": "% of flour",
  "% of the liquid": "% of liquid",
  "rest of the liquid": "rest of liquid",
};

function weighed_line(form: Form, name: string, bowl: Bowl | undefined): Bowl["lines"][number] | undefined {
  const own_name = names_in(form, bowl?.lines ?? []);
  return bowl?.lines.find((l) => (own_name.get(l.ingredient) ?? l.ingredient) === name);
}

function not_negative(text: string): typed.Typed<number> {
  const read = typed.number(text);
  return read.ok && read.value < 0 ? { ok: false, why: "An amount cannot be below nothing." } : read;
}

/** The same amount counted otherwise, from what the bowl last weighed; else the figure stays. */
function figure_in(unit: AmountUnit, line: Bowl["lines"][number] | undefined, bowl: Bowl | undefined, before: number | undefined): number {
  if (!line || !bowl) return before ?? 0;
  const round = (value: number, decimals: number) => Math.round(value * 10 ** decimals) / 10 ** decimals;
  switch (unit) {
    case "%": return round(100 * line.of_flour, 2);
    case "g": return round(line.plan_g, 1);
    case "kg": return round(line.plan_g / 1000, 3);
    case "oz": return round(line.plan_g / 28.349523125, 2);
    case "lb": return round(line.plan_g / 453.59237, 3);
    case "mL": return round(line.volume_mL, 1);
    case "cl": return round(line.volume_mL / 10, 2);
    case "L": return round(line.volume_mL / 1000, 3);
    default: return before ?? 0;
  }
}
