// Money comes from the server as text with its cents right. Here only the decimal sign changes.
import type { Habits } from "../../say/habits";

export const by_comma = (text: string, habits: Habits) => (habits.decimal === "," ? text.replace(".", ",") : text);
export const money = by_comma;

/** "+0.341": a change, with so many decimals. */
export function signed(exact: string, habits: Habits, decimals = 3): string {
  const value = Number(exact);
  const text = Math.abs(value).toFixed(decimals);
  return by_comma(`${value < 0 ? "−" : "+"}${text}`, habits);
}
