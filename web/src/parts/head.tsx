// The head of a bake: the next thing to do and what a baker waits for behind it, each with its range.
import type { DatedSpread, Head as HeadAnswer } from "../api/types";
import type { Habits } from "../say/habits";
import { type Moment, after, short_forecast } from "../say/clock";
import { hours, span } from "../say/say";
import { when } from "./ruler";

/** "about 17:00 (16:00 to 18:15)"; without a range where there is none. */
export function about(spread: Omit<DatedSpread, "p50_at">, mixed: Moment | undefined, habits: Habits): string {
  const { p10_h, p50_h, p90_h } = spread;
  if (p50_h === null) return "not in time for half of such doughs";
  const middle = when(p50_h, mixed, habits);
  if (p10_h !== null && p90_h !== null && when(p10_h, mixed, habits) === middle && when(p90_h, mixed, habits) === middle) return middle;
  if (mixed === undefined && p10_h !== null && p90_h !== null) return `about ${span(hours(p50_h))} (${span(hours(p10_h))} to ${span(hours(p90_h))}) after mixing`;
  // The weekday of an hour is said where it is another than that of the hour before it.
  const beside = (h: number, other: number) => (mixed === undefined ? when(h, mixed, habits) : short_forecast(after(mixed, h), after(mixed, other), habits));
  const from = p10_h === null ? "" : beside(p10_h, p50_h);
  const to = p90_h === null ? "open end" : beside(p90_h, p10_h ?? p50_h);
  return `about ${middle} (${from} to ${to})`;
}

export function Head({ head, mixed, habits }: { head: HeadAnswer; mixed: Moment | undefined; habits: Habits }) {
  if (!head.next) return null;
  return (
    <p data-testid="head">
      <strong>{head.next.what}</strong> {head.next.what === "mix" && mixed === undefined ? "first" : about(head.next, mixed, habits)}
      {head.then ? ` · ${head.then.what} ${about(head.then, mixed, habits)}` : ""}
    </p>
  );
}
