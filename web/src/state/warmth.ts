// Temperatures as a bake file writes them: "24 C" or "75 F".
import type { Habits } from "../say/habits";
import { number } from "../say/typed";

export function celsius_of(text: unknown): number | undefined {
  const found = /^\s*(-?[\d.,]+)\s*°?\s*([CF])\s*$/i.exec(String(text ?? ""));
  const value = number(found?.[1] ?? "");
  if (!found || !value.ok) return undefined;
  return found[2]?.toUpperCase() === "F" ? (value.value - 32) / 1.8 : value.value;
}

/** In the baker's own degrees, to a tenth. */
export function warmth_text(at_C: number, habits: Habits): string {
  const value = habits.warmth === "F" ? at_C * 1.8 + 32 : at_C;
  return `${Math.round(value * 10) / 10} ${habits.warmth}`;
}
