// A field of a recipe that is kept as the bake file has it, text with its unit: a bare number is understood in the unit that the
// field names, a temperature shown in the degrees of the house.
import { useHabits } from "../say/say";
import type { Habits } from "../say/habits";
import { number, type Typed, lasting } from "../say/typed";
import { celsius_of, warmth_text } from "../state/warmth";
import { Figure } from "./field";

/** How the text of such a field is understood; `unit` when what is typed has none. */
export function as_kept(text: string, unit: string, habits: Habits): Typed<string | undefined> {
  const bare = text.trim();
  if (bare === "") return { ok: true, value: undefined };
  const figure = number(bare);
  if (unit === "C") {
    const at = celsius_of(figure.ok ? `${bare} ${habits.warmth}` : bare);
    return at === undefined ? { ok: false, why: `"${bare}" is no temperature. Write 24 C or 75 F.` } : { ok: true, value: warmth_text(at, habits) };
  }
  if (unit === "h") {
    const time = lasting(bare);
    if (!time.ok) return time;
    const said_so = !figure.ok && /^\d+([.,]\d+)?\s*(h|min|days?)$/.test(bare);
    return { ok: true, value: said_so ? bare : `${Math.round(time.value * 100) / 100} h` };
  }
  return { ok: true, value: figure.ok && unit ? `${bare} ${unit}` : bare };
}

export function Measure(props: {
  label: string;
  /** "C" for a temperature, "h" for a length of time, else what stands behind a bare number. */
  unit: string;
  text: unknown;
  such_as: string;
  give: (text: string | undefined) => void;
  wrong?: string | undefined;
}) {
  const habits = useHabits();
  const text = props.text === undefined ? "" : String(props.text);
  const at = props.unit === "C" ? celsius_of(text) : undefined;
  return (
    <Figure<string | undefined>
      label={props.label}
      shown={at === undefined ? text : warmth_text(at, habits)}
      read={(typed) => as_kept(typed, props.unit, habits)}
      give={props.give}
      wrong={props.wrong}
      hint={`such as ${props.such_as}`}
      input={{ inputMode: "text" }}
    />
  );
}
