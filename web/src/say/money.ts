// Money comes from the server as text with its cents right: here it is only written as the house writes numbers.
import type { Habits } from "./habits";
import { written } from "./numbers";

const minus = (text: string) => text.replace(/^-/, "−");

export const money = (text: string, habits: Habits) => minus(written(text, habits));

/** "7 %", "8.875 %": a rate as its law has it. */
export const rate = (share: number, habits: Habits) => `${written(String(Number((100 * share).toFixed(4))), habits)} %`;

/** "+0.341": a change, with so many decimals. */
export function signed(exact: string, habits: Habits, decimals = 3): string {
  const value = Number(exact);
  return `${value < 0 ? "−" : "+"}${written(Math.abs(value).toFixed(decimals), habits)}`;
}

/** "0.0214": a sum with so many decimals. */
export const fine = (exact: string, habits: Habits, decimals = 3) => money(Number(exact).toFixed(decimals), habits);
