// One line of the bowl: its name, its amount, its grams. A tap opens it to be changed: typed or stepped, counted otherwise, taken out.
import type { ComponentChildren } from "preact";
import type { Bowl } from "../../api/types";
import { Figure } from "../../parts/field";
import { Measure } from "../../parts/measure";
import { percent_figure, useHabits, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { type AmountUnit, type Form, type Line, amount_parts, amount_step, amount_text, amount_units, lines, liquid, names_in, planned_share, remove_line, set, with_amount } from "../../state/bake";
import { RecipeLine } from "./recipe_line";

interface Props {
  line: Line;
  /** The names of the flours there are. */
  flours: ReadonlySet<string>;
  form: Form;
  change: (to: Form) => void;
  bowl: Bowl | undefined;
  wrong: string | undefined;
  open: boolean;
  set_open: (open: boolean) => void;
  /** What else is known of this line, to be changed with it: its bottle's label, the levain's feeding. */
  children?: ComponentChildren;
  /** Something is wrong there. */
  amiss?: boolean;
}

export function BowlLine(props: Props) {
  const { line, form, bowl } = props;
  const habits = useHabits();
  const parts = amount_parts(line.amount);
  const weighed = weighed_line(form, line.name, bowl);
  const amount = parts ? [parts.figure === undefined ? "" : percent_figure(parts.figure, habits), unit_words[parts.unit] ?? parts.unit].join(" ").trim() : line.amount;
  return (
    <RecipeLine name={line.name} amount={amount} weight={weighed ? weight(weighed.plan_g, habits) : ""} wrong={props.wrong !== undefined || props.amiss === true} open={props.open} set_open={props.set_open}>
      <Editor {...props} parts={parts} weighed={weighed} />
      {props.children}
    </RecipeLine>
  );
}

function Editor(props: Props & { parts: ReturnType<typeof amount_parts>; weighed: Bowl["lines"][number] | undefined }) {
  const { line, form, change, bowl, wrong, parts, weighed } = props;
  const habits = useHabits();
  const give_text = (amount: string) => change(with_size(with_amount(form, line.name, amount, props.flours), bowl));
  const give = (figure: number | undefined, unit: AmountUnit) => give_text(amount_text(figure, unit));
  const step = (way: 1 | -1) => {
    if (!parts || parts.figure === undefined) return;
    const size = amount_step(parts.unit, way === 1 ? parts.figure : parts.figure - 1e-9);
    give(Math.max(0, Math.round((parts.figure + way * size) * 1000) / 1000), parts.unit);
  };
  return (
    <div class="bowl-line">
      {parts?.figure !== undefined && (
        <div class="steps">
          <button type="button" class="square" aria-label={`Less ${line.name}`} onClick={() => step(-1)}>
            −
          </button>
          <Figure
            label={`Amount of ${line.name}`}
            hidden_label
            shown={percent_figure(parts.figure, habits)}
            read={(text) => amount_typed(text, parts.unit)}
            give={({ figure, unit }) => give(figure, unit)}
            wrong={wrong}
            input={{ autoFocus: true }}
          />
          <button type="button" class="square" aria-label={`More ${line.name}`} onClick={() => step(1)}>
            +
          </button>
        </div>
      )}
      {!parts && (
        <Measure label={`Amount of ${line.name}`} unit="" text={line.amount} such_as="70 %, 900 g, 75 cl" wrong={wrong} give={(text) => give_text(text ?? "")} />
      )}
      {parts && (
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
      )}
      {wrong && parts?.figure === undefined && (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      )}
      <button type="button" class="plain" onClick={() => change(remove_line(form, line.name))}>
        Take {line.name} out
      </button>
    </div>
  );
}

/** Shares of the flour need to be told how much flour there is. */
function with_size(form: Form, bowl: Bowl | undefined): Form {
  const sized = ["piece", "baked", "dough", "flour"].some((key) => form[key] !== undefined) || lines(form).some(({ amount }) => /\d\s*(g|kg|oz|lb)$/.test(amount));
  return sized || !bowl ? form : set(form, "flour", `${Math.round(bowl.percent_of_g)} g`);
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

/** A figure, in the unit that the field names or in the one typed behind it: "2.5", "2.5 %", "500 g". */
function amount_typed(text: string, unit: AmountUnit): typed.Typed<{ figure: number; unit: AmountUnit }> {
  const own = amount_parts(text);
  const behind = own?.figure !== undefined && /[a-z%]\s*$/i.test(text) ? own : undefined;
  const read = behind?.figure === undefined ? typed.number(text) : { ok: true as const, value: behind.figure };
  if (!read.ok) return read;
  if (read.value < 0) return { ok: false, why: "An amount cannot be below zero." };
  return { ok: true, value: { figure: read.value, unit: behind && behind.unit !== "%" ? behind.unit : unit.startsWith("%") ? unit : (behind?.unit ?? unit) } };
}

/** The same amount counted otherwise, from what the bowl last weighed; else the figure stays. */
function figure_in(unit: AmountUnit, line: Bowl["lines"][number] | undefined, bowl: Bowl | undefined, before: number | undefined): number {
  if (!line || !bowl) return before ?? 0;
  const round = (value: number, decimals: number) => Math.round(value * 10 ** decimals) / 10 ** decimals;
  switch (unit) {
    case "%": return round(100 * planned_share(line), 2);
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
