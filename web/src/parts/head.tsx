// The head of a bake: the next thing to do and the bread, each with its range.
import type { DatedSpread, Head as HeadAnswer } from "../api/types";
import type { Habits } from "../say/habits";
import type { Moment } from "../say/clock";
import { when } from "./ruler";

/** "about 17:00 (16:00 to 18:15)"; without a range where there is none. */
export function about(spread: Omit<DatedSpread, "p50_at">, mixed: Moment | undefined, habits: Habits): string {
  const { p10_h, p50_h, p90_h } = spread;
  if (p50_h === null) return "not in time for half of such doughs";
  const middle = when(p50_h, mixed, habits);
  const from = p10_h === null ? "" : when(p10_h, mixed, habits);
  const to = p90_h === null ? "open end" : when(p90_h, mixed, habits);
  return from === middle && to === middle ? middle : `about ${middle} (${from} to ${to})`;
}

export function Head({ head, mixed, habits }: { head: HeadAnswer; mixed: Moment | undefined; habits: Habits }) {
  if (!head.next) return null;
  const oven = head.next.act !== "into_the_oven";
  return (
    <p data-testid="head">
      <strong>{head.next.what}</strong> {about(head.next, mixed, habits)}
      {oven ? ` · into the oven ${about(head.oven, mixed, habits)}` : ""}
    </p>
  );
}
