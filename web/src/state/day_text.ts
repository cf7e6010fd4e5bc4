// A day as it is typed on the page, and as the text that the planner reads (docs/day.md).
import { hours_between, iso, moment_of, type Moment } from "../say/clock";

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
  /** Steps said to have begun, by the bake's id: a local time each. */
  done: Record<string, Record<string, string>>;
}

/** A guess to begin with: a small bakery of two. */
export const usual_day = (bread: string): TypedDay => ({
  ticked: {}, loaves: {}, begins: "", bread,
  hands: 2, mixers: 1, bench: 2, fridge: 24, decks: 2, loaves_on_a_deck: 8,
  night: { from: 22 * 60, to: 4 * 60 }, cold: true, done: {},
});

/** "22:00". */
export const hour_text = (minutes: number) => `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;

const longest_days = 7;

/** A plan goes by whole five minutes, and begins with the next of them. */
const grid_ms = 5 * 60_000;
const on_the_grid = (at: Moment) => (Math.ceil(at / grid_ms) * grid_ms) as Moment;

/** What is wrong with the hours, by field; nothing where they can be planned with. */
export function wrong_hours(day: TypedDay, now: Moment): { bread?: string; begins?: string } {
  const bread = moment_of(day.bread);
  const begins = moment_of(day.begins);
  const begun = on_the_grid(begins ?? now);
  if (begins !== undefined && begins < now) return { begins: "That hour has gone by: leave it at now." };
  if (bread === undefined) return { bread: "Choose a day and an hour." };
  if (bread <= begun) return { bread: begins === undefined ? "No time is left until then: choose a later hour." : "That is before the day begins." };
  if (new Date(bread).getMinutes() % 5 !== 0) return { bread: "It goes to whole five minutes: 8:00 or 8:05." };
  if (hours_between(begun, bread) > 24 * longest_days) return { bread: `At most ${longest_days} days are planned.` };
  return {};
}

/** What began longer ago belongs to another day. */
const longest_done_h = 72;

function done_text(done: Record<string, string> | undefined, now: Moment): string[] {
  const recent = Object.entries(done ?? {}).filter(([, text]) => {
    const at = moment_of(text);
    return at !== undefined && hours_between(at, now) < longest_done_h;
  });
  return recent.length === 0 ? [] : [`done = { ${recent.map(([step, text]) => `${JSON.stringify(step)} = ${text}:00`).join(", ")} }`];
}

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
    ...done_text(day.done[id], now),
    ...(day.cold && day.fridge > 0 ? [`or = [{ fridge = "8 h to 16 h" }]`] : []),
  ];
  return [
    `name = ${JSON.stringify(name)}`, `begins = ${wall(begins)}`, `bread = ${wall(bread)}`,
    "[house]", ...house_keys.map((key) => `${key} = ${day[key]}`), ...night,
    ...bakes.flatMap(of_bake), "",
  ].join("\n");
}
