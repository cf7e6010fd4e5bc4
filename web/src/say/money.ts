// Money comes from the server as text with its cents right. Here only the decimal sign changes.
import type { Habits } from "./habits";

export const by_comma = (text: string, habits: Habits) => (habits.decimal === "," ? text.replace(".", ",") : text);
export const money = (text: string, habits: Habits) => by_comma(text.replace(/^-/, "−"), habits);

/** "7 %", "8.875 %": a rate as its law has it. */
export const rate = (share: number, habits: Habits) => `${by_comma(String(Number((100 * share).toFixed(4))), habits)} %`;

/** "+0.341": a change, with so many decimals. */
export function signed(exact: string, habits: Habits, decimals = 3): string {
  const value = Number(exact);
  const text = Math.abs(value).toFixed(decimals);
  return by_comma(`${value < 0 ? "−" : "+"}${text}`, habits);
}

/** "0.0214": a sum with so many decimals. */
export const fine = (exact: string, habits: Habits, decimals = 3) => money(Number(exact).toFixed(decimals), habits);
