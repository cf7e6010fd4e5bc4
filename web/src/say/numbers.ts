// Numbers as a baker says them: 3 g, half a degree, a quarter of an hour. The rounding is that of the terminal program.
import { type Celsius, type Grams, type Hours, to_fahrenheit, to_ounces } from "./units";
import type { Habits } from "./habits";

/** Languages that write numbers so; thousands stay together, for what is shown is typed back. */
const writes = { ".": "en", ",": "de" } as const;
const formats = new Map<string, Intl.NumberFormat>();

function format_of(decimals: number, habits: Habits): Intl.NumberFormat {
  const key = habits.decimal + decimals;
  const format = formats.get(key) ?? new Intl.NumberFormat(writes[habits.decimal], { minimumFractionDigits: decimals, maximumFractionDigits: decimals, useGrouping: false });
  formats.set(key, format);
  return format;
}

/** The numbers of a text, digits with a point (which Intl takes as they are), in the writing of the house. They are rounded already, as the terminal does. */
export const written = (text: string, habits: Habits): string =>
  text.replace(/\d+(?:\.(\d+))?/g, (digits, decimals = "") => format_of(decimals.length, habits).format(digits as unknown as number));

/** A number with so many decimals and the baker's decimal sign. Refuses what is no number: it must never be shown. */
export function plain(value: number, decimals: number, habits: Habits): string {
  if (!Number.isFinite(value)) throw new RangeError("a number that is none was about to be shown");
  const text = value.toFixed(decimals);
  return written(/^-0(\.0*)?$/.test(text) ? text.slice(1) : text, habits);
}

/** Two figures that matter: 37, 4.2, 0.15. */
export function two_figures(value: number, habits: Habits): string {
  const size = Math.abs(value);
  if (size >= 9.95 || size === 0) return plain(value, 0, habits);
  if (size >= 0.995) return plain(value, 1, habits);
  return plain(value, Math.min(6, 1 - Math.floor(Math.log10(size))), habits);
}

/** The figure on the scale, without its unit: whole grams from ten, tenths from one. */
export function scale_figure(mass: Grams, habits: Habits): string {
  if (habits.weight === "oz") {
    const ounces = to_ounces(mass);
    return plain(ounces, Math.abs(ounces) >= 9.95 ? 1 : 2, habits);
  }
  const size = Math.abs(mass);
  return plain(mass, size >= 9.95 || size === 0 ? 0 : size >= 0.95 ? 1 : 2, habits);
}

export function weight(mass: Grams, habits: Habits): string {
  if (habits.weight === "oz") {
    const ounces = to_ounces(mass);
    if (Math.abs(ounces) >= 160) return `${plain(ounces / 16, 1, habits)} lb`;
    return `${scale_figure(mass, habits)} oz`;
  }
  if (Math.abs(mass) >= 10000) return `${plain(mass / 1000, 1, habits)} kg`;
  return `${scale_figure(mass, habits)} g`;
}

export function volume(millilitres: number, habits: Habits): string {
  if (millilitres >= 10000) return `${plain(millilitres / 1000, 1, habits)} L`;
  return `${plain(millilitres, millilitres >= 9.95 ? 0 : 1, habits)} mL`;
}

/** Half degrees Celsius, whole degrees Fahrenheit. */
export function warmth_figure(at: Celsius, habits: Habits): string {
  if (habits.warmth === "F") return plain(Math.round(to_fahrenheit(at)), 0, habits);
  const half = Math.round(2 * at) / 2;
  return plain(half, Number.isInteger(half) ? 0 : 1, habits);
}

export const warmth_unit = (habits: Habits) => (habits.warmth === "F" ? "°F" : "°C");
/** As a thermometer shows it, to a tenth. */
export const warmth_read = (at: Celsius, habits: Habits) => plain(habits.warmth === "F" ? to_fahrenheit(at) : at, 1, habits);

export const warmth = (at: Celsius, habits: Habits) => `${warmth_figure(at, habits)} ${warmth_unit(habits)}`;

/** How much warmer or colder, "1.5 °C" or "2.7 °F"; without a sign where that is said in words. */
export const warmth_apart = (kelvin: number, habits: Habits) =>
  `${plain(habits.warmth === "F" ? 1.8 * kelvin : kelvin, 1, habits)} ${warmth_unit(habits)}`;

/** How far a dough is off the temperature wanted. */
export function too_warm_or_cold(kelvin: number, habits: Habits): string {
  if (Math.abs(kelvin) < 0.05) return "as wanted";
  return `${warmth_apart(Math.abs(kelvin), habits)} too ${kelvin > 0 ? "warm" : "cold"}`;
}

/** A length of time in quarters of an hour: "2 h 15", "45 min", "52 h". */
export function span(time: Hours): string {
  if (time < 0) return `-${span(-time as Hours)}`;
  if (time >= 48) return `${Math.round(time)} h`;
  const minutes = 15 * Math.round((time * 60) / 15);
  if (minutes === 0) return "under 15 min";
  if (minutes < 60) return `${minutes} min`;
  return minutes % 60 === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${minutes % 60}`;
}

export const percent = (share: number, habits: Habits) => `${two_figures(100 * share, habits)} %`;

/** Baker's percent as it is typed: up to two decimals, none that say nothing. */
export function percent_figure(value: number, habits: Habits): string {
  return written(String(Math.round(value * 100) / 100), habits);
}

export function times(ratio: number, habits: Habits): string {
  if (Math.abs(ratio - 2) < 1e-9) return "doubled";
  if (Math.abs(ratio - 3) < 1e-9) return "tripled";
  if (Math.abs(ratio - 1.5) < 1e-9) return "risen by half";
  return `${two_figures(ratio, habits)} times`;
}

const said: readonly (readonly [number, number])[] = [
  [1, 3], [2, 5], [1, 2], [3, 5], [2, 3], [3, 4], [4, 5], [5, 6], [9, 10], [19, 20], [3, 10], [7, 10],
];

/** A chance as bakers say it: "4 in 5", "1 in 50". `draws` is how many doughs were looked at; beyond 1 in 100 nobody counts. */
export function odds(chance: number, draws: number): string {
  // Of so few doughs looked at, a share of one is none.
  const least = Math.max(0.01, 0.999 / draws);
  const of = Math.min(100, draws);
  if (chance < least) return `under 1 in ${of}`;
  if (chance > 1 - least) return `over ${of - 1} in ${of}`;
  if (chance < 0.29) return `1 in ${rounded(1 / chance)}`;
  if (chance > 0.95) {
    const all = rounded(1 / (1 - chance));
    return `${all - 1} in ${all}`;
  }
  const best = said.reduce((a, b) => (Math.abs(b[0] / b[1] - chance) < Math.abs(a[0] / a[1] - chance) ? b : a));
  return `${best[0]} in ${best[1]}`;
}

function rounded(n: number): number {
  const step = n < 10 ? 1 : n < 50 ? 5 : 10;
  return Math.min(100, step * Math.round(n / step));
}
