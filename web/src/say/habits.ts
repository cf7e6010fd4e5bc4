/** How this baker reads numbers. Kept in the browser: a phone and a desk may differ. */
export interface Habits {
  warmth: "C" | "F";
  weight: "g" | "oz";
  clock: "24" | "12";
  decimal: "." | ",";
}

export const usual: Habits = { warmth: "C", weight: "g", clock: "24", decimal: "." };
