// The oven in words: how to load it, how long, what comes out; as src/service/oven/words.cpp says it.
import type { OvenAnswer, OvenMinutes, OvenRange } from "../api/types";
import type { Habits } from "./habits";
import { lasting, plain, warmth, warmth_apart } from "./say";

export const percents = (r: OvenRange, habits: Habits) =>
  `${plain(100 * r.p50, 0, habits)} % (${plain(100 * r.p10, 0, habits)} to ${plain(100 * r.p90, 0, habits)})`;

const between_degrees = (r: OvenRange, habits: Habits) =>
  `${warmth(r.p50, habits)} (${warmth(r.p10, habits)} to ${warmth(r.p90, habits)})`;

/** How near what was learned comes to what was measured; of what there was of both. */
export const how_near = (learned: OvenAnswer["learned"], habits: Habits) =>
  [
    learned?.core_off_K == null ? [] : `core within ${warmth_apart(learned.core_off_K, habits)} of the probe`,
    learned?.loss_off == null ? [] : `weight within ${plain(Math.abs(100 * learned.loss_off), 1, habits)} % of the scale`,
  ]
    .flat()
    .join(", ");

/** Of a loaf that nobody said how long to bake its core is what ends the bake. */
export const core = ({ bake_typed, core_C }: Pick<OvenAnswer, "bake_typed" | "core_C">, habits: Habits) =>
  bake_typed ? between_degrees(core_C, habits) : warmth(core_C.p50, habits);

/** At an oven a minute counts: quarters of an hour only from an hour and a half on. */
const minutes = (value: number) => (value < 90 ? `${Math.round(value)} min` : lasting(value / 60));

export function in_minutes(r: OvenMinutes): string {
  const one = (value: number | null) => (value === null ? "later" : minutes(value));
  return r.p10 === r.p90 ? one(r.p50) : `${one(r.p50)} (${one(r.p10)} to ${one(r.p90)})`;
}

type HowLong = Pick<OvenAnswer, "bake_typed" | "in_oven_min">;

export const how_long = ({ bake_typed, in_oven_min }: HowLong) => (bake_typed ? in_minutes(in_oven_min) : `about ${in_minutes(in_oven_min)}`);

export function how_to_load(answer: OvenAnswer, habits: Habits): string {
  const parts = answer.set.map(({ from_min, C }, i) => (i === 0 ? warmth(C, habits) : `from ${minutes(from_min)} on ${warmth(C, habits)}`));
  if (answer.steam_min > 0) parts.push(`steam for ${minutes(answer.steam_min)}`);
  if (answer.lid_min > 0) parts.push(`under a lid for ${minutes(answer.lid_min)}`);
  if (answer.stone) parts.push("on a hot stone");
  if (answer.fan) parts.push("with a fan");
  if (answer.loaves > 1) parts.push(`${answer.loaves} loaves at once`);
  return parts.join(", ");
}
