// The head of a bake: the next thing to do and what a baker waits for behind it, each with its range.
import type { DatedSpread, Head as HeadAnswer } from "../api/types";
import type { Habits } from "../say/habits";
import { type Moment, after, hours_between, now, short_forecast } from "../say/clock";
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

const can_be_missed = ["fold", "into_the_cold", "cut"];

/** What comes next and what follows it. What is overdue has no hour to come, and what follows is as much later; what may be missed is due now. */
function head_words({ next, then }: HeadAnswer, mixed: Moment | undefined, habits: Habits, at: Moment): { next: string; then: string } {
  if (!next) return { next: "", then: "" };
  const passed = mixed !== undefined && next.act !== "mix" && next.p90_h !== null && hours_between(mixed, at) > next.p90_h;
  const since = passed && !can_be_missed.includes(next.act) ? next.p90_h : null;
  const to_come = next.act === "mix" && mixed === undefined ? "first" : passed ? "now" : about(next, mixed, habits);
  const said_next = since !== null ? `: overdue since ${when(since, mixed, habits)}` : ` ${to_come}`;
  if (!then) return { next: said_next, then: "" };
  const wait_h = since !== null && then.p50_h !== null && next.p50_h !== null ? then.p50_h - next.p50_h : undefined;
  return { next: said_next, then: ` · ${then.what} ${wait_h !== undefined ? `about ${span(hours(wait_h))} after that` : about(then, mixed, habits)}` };
}

export function Head({ head, mixed, habits }: { head: HeadAnswer; mixed: Moment | undefined; habits: Habits }) {
  if (!head.next) return null;
  const words = head_words(head, mixed, habits, now());
  return (
    <p data-testid="head">
      <strong>{head.next.what}</strong>
      {words.next}
      {words.then}
    </p>
  );
}
