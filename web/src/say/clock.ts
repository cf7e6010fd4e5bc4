// Times on the clock. The daybook keeps moments in UTC; a bake file has local times of the bakery without a zone
// ("2026-11-28T07:00"). Both are one kind of moment here and become a time on the wall only when they are said, so that hours
// stay true in the night in which the clock is changed.
import { type Habits, usual } from "./habits";

const minute = 60_000;
const second = 1000;

const zone_for_ms = 10_000;
let known_zone = { name: "", offset_min: 0, asked_ms: -Infinity };

/** By its IANA name; looked up again after a while, for it takes a phone long and every request says it. */
export function zone_here(): string {
  const [offset_min, asked_ms] = [new Date().getTimezoneOffset(), performance.now()];
  if (offset_min !== known_zone.offset_min || asked_ms - known_zone.asked_ms > zone_for_ms) {
    known_zone = { name: Intl.DateTimeFormat().resolvedOptions().timeZone, offset_min, asked_ms };
  }
  return known_zone.name;
}

/** A moment, in milliseconds since 1970 in UTC. */
export type Moment = number & { readonly moment: unique symbol };

/**
 * When the wall clock of this device shows that time. An hour that comes twice is taken as its first, one that is left out
 * as if the clock had not been changed: as the server takes them.
 */
export function moment_of(text: string): Moment | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2}))?/.exec(text);
  if (!parts) return undefined;
  const [, y, mo, d, h, mi, s] = parts.map(Number) as [number, number, number, number, number, number, number];
  const at = new Date(y, mo - 1, d, h, mi, Number.isNaN(s) ? 0 : s).getTime();
  return Number.isNaN(at) ? undefined : (at as Moment);
}

const to_the_second = (ms: number) => (Math.floor(ms / second) * second) as Moment;

/** How far the clock that holds is ahead of this device's (state/clock.ts). */
let ahead_ms = 0;
export function set_ahead(ms: number): void {
  ahead_ms = ms;
}

/** Now, to the second. */
export const now = () => to_the_second(Date.now() + ahead_ms);

export const after = (start: Moment, hours: number) => (start + hours * 60 * minute) as Moment;
export const hours_between = (from: Moment, to: Moment) => (to - from) / (60 * minute);

const two = (n: number) => String(n).padStart(2, "0");

/** As the bake file and the server write it: 2026-11-28T07:00, on the wall. */
export function iso(at: Moment): string {
  const d = new Date(at);
  return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}T${two(d.getHours())}:${two(d.getMinutes())}`;
}

/** How far the clock on the wall has gone since midnight, in hours. */
export function hour_of_day(at: Moment): number {
  const d = new Date(at);
  return d.getHours() + d.getMinutes() / 60 + d.getSeconds() / 3600;
}

type Parts = Partial<Record<Intl.DateTimeFormatPartTypes, string>>;
const formats = new Map<string, Intl.DateTimeFormat>();

/** The words of a moment in a zone; else by the clock of this device, which may be in another zone than it was when the page opened. */
function parts_of(at: Moment, how: Intl.DateTimeFormatOptions, zone?: string): Parts {
  const on_the_wall = zone === undefined ? at - minute * new Date(at).getTimezoneOffset() : at;
  const key = JSON.stringify({ ...how, zone });
  const format = formats.get(key) ?? new Intl.DateTimeFormat("en", { ...how, timeZone: zone ?? "UTC" });
  formats.set(key, format);
  return Object.fromEntries(format.formatToParts(on_the_wall).map(({ type, value }) => [type, value]));
}

const hours_of = { "24": { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }, "12": { hour: "numeric", minute: "2-digit", hourCycle: "h12" } } as const;

/** The time on the clock, "07:30" or "7:30 am"; in another zone, that of its clocks. */
export function clock(at: Moment, habits: Habits, zone?: string): string {
  const { hour, minute, dayPeriod } = parts_of(at, hours_of[habits.clock], zone);
  return `${hour}:${minute}${dayPeriod === undefined ? "" : ` ${dayPeriod.toLowerCase()}`}`;
}

const weekday = (at: Moment, zone?: string) => parts_of(at, { weekday: "short" }, zone).weekday;

const quarter = (at: Moment) => (Math.round(at / (15 * minute)) * 15 * minute) as Moment;

/** A forecast moment, in quarters of an hour, with its weekday: "Sat 15:30". */
export function forecast_moment(at: Moment, habits: Habits): string {
  return exact_moment(quarter(at), habits);
}

/** The same without the weekday when it falls on the day of `beside`. */
export function short_forecast(at: Moment, beside: Moment, habits: Habits): string {
  const q = quarter(at);
  return same_day(q, beside) ? clock(q, habits) : exact_moment(q, habits);
}

/** What happened at a minute: "Sat 15:32". */
export function exact_moment(at: Moment, habits: Habits, zone?: string): string {
  return `${weekday(at, zone)} ${clock(at, habits, zone)}`;
}

/** Whether the clocks of a zone say the same time now as those of this device. A zone this browser does not know has none. */
export function goes_as_here(zone: string, habits: Habits): boolean {
  try {
    return exact_moment(now(), habits, zone) === exact_moment(now(), habits);
  } catch {
    return true;
  }
}

export const same_day = (a: Moment, b: Moment) => iso(a).slice(0, 10) === iso(b).slice(0, 10);

/** How long ago something was typed: "just now", "12 min ago", "3 h ago", "4 days ago". */
export function ago(at: Moment | undefined): string {
  const h = at === undefined ? 0 : hours_between(at, now());
  if (h < 1 / 30) return "just now";
  if (h < 1) return `${Math.round(60 * h)} min ago`;
  return h < 48 ? `${Math.round(h)} h ago` : `${Math.round(h / 24)} days ago`;
}

const date_parts = (at: Moment) => parts_of(at, { weekday: "short", day: "numeric", month: "short", year: "numeric" });

/** "Sat 28 Nov", or "Sat Nov 28". */
function day_of(at: Moment, habits: Habits): string {
  const { day, month } = date_parts(at);
  return `${weekday(at)} ${habits.dates === "month" ? `${month} ${day}` : `${day} ${month}`}`;
}

/** "Sat 28 Nov 2026", or "Sat Nov 28, 2026". */
export const date = (at: Moment, habits: Habits = usual) => `${day_of(at, habits)}${habits.dates === "month" ? "," : ""} ${date_parts(at).year}`;

/** The same of the day a record names, "2026-11-28" and whatever stands behind it; as it is where it names none. */
export function date_of(day: string, habits: Habits): string {
  const noon = moment_of(`${day.slice(0, 10)}T12:00`);
  return noon === undefined ? day : date(noon, habits);
}

/** "Nov 2026". */
export const month_words = (at: Moment) => `${date_parts(at).month} ${date_parts(at).year}`;

/** A day as it is chosen from a list: "today, Sat 28 Nov"; of another year with its year. */
export function day_words(day: string, habits: Habits): string {
  const noon = moment_of(`${day}T12:00`) ?? now();
  const today = now();
  const near: Record<string, string> = {
    [iso(today).slice(0, 10)]: "today, ",
    [iso(after(today, 24)).slice(0, 10)]: "tomorrow, ",
    [iso(after(today, -24)).slice(0, 10)]: "yesterday, ",
  };
  return (near[day] ?? "") + (iso(today).slice(0, 4) === day.slice(0, 4) ? day_of(noon, habits) : date(noon, habits));
}

/** A moment as the daybook keeps it, "2026-11-28T06:00:00Z". */
export function from_utc(text: string): Moment | undefined {
  const date = new Date(text);
  return Number.isNaN(date.getTime()) ? undefined : to_the_second(date.getTime());
}

/** The same back. */
export const to_utc = (at: Moment) => `${new Date(at).toISOString().slice(0, 19)}Z`;
