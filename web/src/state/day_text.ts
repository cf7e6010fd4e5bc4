// A day as it is typed on the page, and as the text that the planner reads (docs/day.md).
import { iso, moment_of, type Moment } from "../say/clock";

/** What stands in the fields; a count is a whole number. */
export interface House {
  hands: number;
  mixers: number;
  bench: number;
  fridge: number;
  decks: number;
  loaves_on_a_deck: number;
}

export interface TypedDay extends House {
  /** What was ticked or unticked by hand, by the bake's id. */
  ticked: Record<string, boolean>;
  loaves: Record<string, number | undefined>;
  /** Empty: now. */
  begins: string;
  bread: string;
  /** Minutes since midnight; nobody works between. */
  night: { from: number; to: number } | null;
  cold: boolean;
}

/** A guess to begin with: a small bakery of two. */
export const usual_day = (bread: string): TypedDay => ({
  ticked: {}, loaves: {}, begins: "", bread,
  hands: 2, mixers: 1, bench: 2, fridge: 24, decks: 2, loaves_on_a_deck: 8,
  night: { from: 22 * 60, to: 4 * 60 }, cold: true,
});

/** "22:00". */
export const hour_text = (minutes: number) => `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;

const wall = (at: Moment) => `${iso(at)}:00`;
const house_keys = ["hands", "mixers", "bench", "fridge", "decks", "loaves_on_a_deck"] as const;

/** The text of the day; `bakes` are the ids of those that are ticked. */
export function day_text(day: TypedDay, bakes: readonly string[], name: string, now: Moment): string {
  const begins = moment_of(day.begins) ?? now;
  const bread = moment_of(day.bread) ?? now;
  const night = day.night && day.night.from !== day.night.to ? [`night = "${hour_text(day.night.from)} to ${hour_text(day.night.to)}"`] : [];
  const of_bake = (id: string) => [
    "[[bake]]",
    `file = ${JSON.stringify(id)}`,
    ...(day.loaves[id] === undefined ? [] : [`loaves = ${day.loaves[id]}`]),
    ...(day.cold && day.fridge > 0 ? [`or = [{ fridge = "8 h to 16 h" }]`] : []),
  ];
  return [
    `name = ${JSON.stringify(name)}`, `begins = ${wall(begins)}`, `bread = ${wall(bread)}`,
    "[house]", ...house_keys.map((key) => `${key} = ${day[key]}`), ...night,
    ...bakes.flatMap(of_bake), "",
  ].join("\n");
}
