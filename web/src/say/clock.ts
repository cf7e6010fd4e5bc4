// Times on the clock. A bake's times are local times of the bakery without a zone ("2026-11-28T07:00"), as in the bake
// file; they are reckoned as if in UTC so that no zone of the browser shifts them.
import type { Habits } from "./habits";

const weekdays = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"] as const;
const minute = 60_000;

/** A local time of the bakery, in milliseconds of a calendar without zones. */
export type Moment = number & { readonly moment: unique symbol };

export function moment_of(text: string): Moment | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2}))?/.exec(text);
  if (!parts) return undefined;
  const [, y, mo, d, h, mi, s] = parts.map(Number) as [number, number, number, number, number, number, number];
  const at = Date.UTC(y, mo - 1, d, h, mi, Number.isNaN(s) ? 0 : s);
  return Number.isNaN(at) ? undefined : (at as Moment);
}

/** The wall clock of this device. */
export function now(date = new Date()): Moment {
  return Date.UTC(
    date.getFullYear(), date.getMonth(), date.getDate(), date.getHours(), date.getMinutes(), date.getSeconds(),
  ) as Moment;
}

export const after = (start: Moment, hours: number) => (start + hours * 60 * minute) as Moment;
export const hours_between = (from: Moment, to: Moment) => (to - from) / (60 * minute);

/** As the bake file and the server write it: 2026-11-28T07:00. */
export const iso = (at: Moment) => new Date(at).toISOString().slice(0, 16);

function of_day(at: Moment, habits: Habits): string {
  const date = new Date(at);
  const h = date.getUTCHours();
  const m = String(date.getUTCMinutes()).padStart(2, "0");
  if (habits.clock === "24") return `${String(h).padStart(2, "0")}:${m}`;
  return `${h % 12 === 0 ? 12 : h % 12}:${m} ${h < 12 ? "am" : "pm"}`;
}

const quarter = (at: Moment) => (Math.round(at / (15 * minute)) * 15 * minute) as Moment;

/** A forecast moment, in quarters of an hour, with its weekday: "Sat 15:30". */
export function forecast_moment(at: Moment, habits: Habits): string {
  return exact_moment(quarter(at), habits);
}

/** The same without the weekday when it falls on the day of `beside`. */
export function short_forecast(at: Moment, beside: Moment, habits: Habits): string {
  const q = quarter(at);
  return same_day(q, beside) ? of_day(q, habits) : exact_moment(q, habits);
}

/** What happened at a minute: "Sat 15:32". */
export function exact_moment(at: Moment, habits: Habits): string {
  return `${weekdays[new Date(at).getUTCDay()]} ${of_day(at, habits)}`;
}

export const same_day = (a: Moment, b: Moment) => iso(a).slice(0, 10) === iso(b).slice(0, 10);

/** "Sat 28 Nov 2026". */
export function date(at: Moment): string {
  const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
  const d = new Date(at);
  return `${weekdays[d.getUTCDay()]} ${d.getUTCDate()} ${months[d.getUTCMonth()]} ${d.getUTCFullYear()}`;
}

/** A moment of the daybook ("2026-11-28T06:00:00Z") as the wall clock of this device shows it. */
export function from_utc(text: string): Moment | undefined {
  const date = new Date(text);
  return Number.isNaN(date.getTime()) ? undefined : now(date);
}

/** The same back: what this device's wall clock shows, as the daybook keeps it. */
export function to_utc(at: Moment): string {
  const d = new Date(at);
  const local = new Date(d.getUTCFullYear(), d.getUTCMonth(), d.getUTCDate(), d.getUTCHours(), d.getUTCMinutes(), d.getUTCSeconds());
  return `${local.toISOString().slice(0, 19)}Z`;
}
