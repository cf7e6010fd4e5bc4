/** How the bakers of this bakery read numbers. */
export interface Habits {
  warmth: "C" | "F";
  weight: "g" | "oz";
  clock: "24" | "12";
  decimal: "." | ",";
  /** Whether the day or the month is said first. */
  dates: "day" | "month";
}

export const usual: Habits = { warmth: "C", weight: "g", clock: "24", decimal: ".", dates: "day" };
