// What a baker types, read with comma or point alike. The rules and remedies are those of the bake file.
import { type Celsius, type Grams, celsius, from_fahrenheit, from_ounces, grams } from "./units";
import type { Habits } from "./habits";

export type Typed<T> = { ok: true; value: T } | { ok: false; why: string };

const good = <T>(value: T): Typed<T> => ({ ok: true, value });
const bad = (why: string): Typed<never> => ({ ok: false, why });

/** A plain number. A comma before three digits can be read two ways and is refused. */
export function number(text: string): Typed<number> {
  const bare = text.trim().replace(/\u00a0/g, " ");
  if (bare === "") return bad("Nothing is typed. A number such as 70 would do.");
  if (/^[+-]?\d{1,3},\d{3}$/.test(bare)) {
    return bad(`"${bare}" can be read two ways. Write ${bare.replace(",", "")} or ${bare.replace(",", ".")}.`);
  }
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(bare)) return bad(`"${bare}" is no number. Write it as 70 or 70.5.`);
  return good(Number(bare.replace(",", ".")));
}

function split(text: string): { figure: string; unit: string } {
  const parts = /^\s*([+-]?[\d.,]*)\s*(.*?)\s*$/.exec(text);
  return { figure: parts?.[1] ?? "", unit: (parts?.[2] ?? "").toLowerCase() };
}

/** A weight: a bare number is in the baker's own unit; "12 oz" and "1.5 kg" always mean themselves. */
export function weight(text: string, habits: Habits): Typed<Grams> {
  const { figure, unit } = split(text);
  const value = number(figure);
  if (!value.ok) return value;
  if (value.value < 0) return bad("A weight cannot be below nothing.");
  switch (unit || habits.weight) {
    case "g": return good(grams(value.value));
    case "kg": return good(grams(1000 * value.value));
    case "oz": return good(from_ounces(value.value));
    case "lb": return good(from_ounces(16 * value.value));
    default: return bad(`"${unit}" is no weight. Write 900 g, 1.5 kg, 12 oz or 2 lb.`);
  }
}

/** A temperature: a bare number is in the baker's own degrees. */
export function warmth(text: string, habits: Habits): Typed<Celsius> {
  const { figure, unit } = split(text);
  const value = number(figure);
  if (!value.ok) return value;
  const degrees = unit.replace("°", "").toUpperCase() || habits.warmth;
  if (degrees === "C") return good(celsius(value.value));
  if (degrees === "F") return good(from_fahrenheit(value.value));
  return bad(`"${unit}" is no temperature. Write 24 C or 75 F.`);
}
