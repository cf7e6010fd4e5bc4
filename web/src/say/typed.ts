// What a baker types, read with comma or point alike. The rules and remedies are those of the bake file.
import { type Celsius, type Grams, type Hours, celsius, from_fahrenheit, from_ounces, grams, hours } from "./units";
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

/** How many: a whole number from none, or `least`, to so many. */
export function count(text: string, most: number, least = 0): Typed<number> {
  const value = number(text);
  const whole = value.ok && Number.isInteger(value.value) && value.value >= least && value.value <= most;
  return whole ? value : bad(`A whole number from ${least} to ${most}.`);
}

/** The height of a dough in its jar [mm]. */
export function height(text: string): Typed<number> {
  const value = number(text.replace(/\s*mm$/i, ""));
  return value.ok && (value.value < 2 || value.value > 1000) ? bad("A height is between 2 and 1000 mm.") : value;
}

/** A field that may be left empty. */
export const or_empty =
  <T>(read: (text: string) => Typed<T>) =>
  (text: string): Typed<T | undefined> =>
    text.trim() === "" ? good(undefined) : read(text);

function split(text: string): { figure: string; unit: string } {
  const parts = /^\s*([+-]?[\d.,]*)\s*(.*?)\s*$/.exec(text);
  return { figure: parts?.[1] ?? "", unit: (parts?.[2] ?? "").toLowerCase() };
}

/** A weight: a bare number is in the baker's own unit; "12 oz" and "1.5 kg" always mean themselves. */
export function weight(text: string, habits: Habits): Typed<Grams> {
  const { figure, unit } = split(text);
  const value = number(figure || text);
  if (!value.ok) return value;
  if (value.value < 0) return bad("A weight cannot be below zero.");
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
  const value = number(figure || text);
  if (!value.ok) return value;
  const degrees = unit.replace("°", "").toUpperCase() || habits.warmth;
  if (degrees === "C") return good(celsius(value.value));
  if (degrees === "F") return good(from_fahrenheit(value.value));
  return bad(`"${unit}" is no temperature. Write 24 C or 75 F.`);
}

const per_hour: Record<string, number> = { "": 1, h: 1, hour: 1, hours: 1, min: 1 / 60, minutes: 1 / 60, m: 1 / 60, d: 24, day: 24, days: 24 };

/** What can be read off a dough or its room, as the daybook keeps it (src/units/readable.h). */
export function dough_warmth(text: string, habits: Habits): Typed<Celsius> {
  const value = warmth(text, habits);
  const between = habits.warmth === "F" ? "23 and 140 °F" : "-5 and 60 °C";
  return value.ok && (value.value < -5 || value.value > 60) ? bad(`A dough or its room is between ${between}.`) : value;
}

/** The pH of a dough. */
export function ph(text: string): Typed<number> {
  const value = number(text);
  return value.ok && (value.value < 2.5 || value.value > 8.5) ? bad("The pH of a dough is between 2.5 and 8.5.") : value;
}

/** A length of time; a bare number counts hours: 12, 12 h, 7h30, 7:30, 90 min, 2 days. */
export function lasting(text: string): Typed<Hours> {
  const both = /^\s*(\d+)\s*(?:h|:)\s*(\d{1,2})\s*(?:m|min)?\s*$/i.exec(text);
  if (both) {
    if (Number(both[2]) > 59) return bad("An hour has 60 minutes: write 7:30 or 7.5.");
    return good(hours(Number(both[1]) + Number(both[2]) / 60));
  }
  const { figure, unit } = split(text);
  const value = number(figure || text);
  if (!value.ok) return value;
  const factor = per_hour[unit];
  if (factor === undefined) return bad(`"${unit}" is no length of time. Write 5 h, 7:30, 90 min or 2 days.`);
  return value.value < 0 ? bad("A time cannot be below zero.") : good(hours(value.value * factor));
}

/** Hours of a test bake since it was mixed. */
export function since_mixing(text: string): Typed<Hours> {
  const value = lasting(text);
  return value.ok && value.value > 1440 ? bad("At most 60 days after mixing.") : value;
}

/** A share in percent: 6.8 and 6.8 % are the same. */
export function percent(text: string): Typed<number> {
  const value = number(text.replace(/\s*%\s*$/, ""));
  return value.ok && value.value < 0 ? bad("A share cannot be below zero.") : value;
}

/** The same of a thing that cannot be more than so many percent. */
export const percent_up_to = (most: number) => (text: string): Typed<number> => {
  const value = percent(text);
  return value.ok && value.value > most ? bad(`At most ${most} %.`) : value;
};

/** The time on the clock, in minutes after midnight: 7, 7:30, 730, 7h30, 7.30, 7 pm. */
export function clock_time(text: string): Typed<number> {
  const found = /^\s*(\d{1,2})(?:\s*[:.h]\s*(\d{2})?|(\d{2}))?\s*(?:(am|pm|a\.m\.|p\.m\.)|uhr|h)?\s*$/i.exec(text);
  if (!found) return bad(`"${text.trim()}" is no time on the clock. Write 7:30 or 19:00.`);
  const half = found[4]?.toLowerCase().replaceAll(".", "");
  const minute = Number(found[2] ?? found[3] ?? 0);
  let hour = Number(found[1]);
  if (half !== undefined && (hour < 1 || hour > 12)) return bad("With am and pm an hour is from 1 to 12.");
  if (half === "am" && hour === 12) hour = 0;
  if (half === "pm" && hour < 12) hour += 12;
  if (hour > 23 || minute > 59) return bad("The clock goes from 0:00 to 23:59.");
  return good(60 * hour + minute);
}
