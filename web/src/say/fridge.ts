// Doughs in a fridge in words; as src/cli/oven/print_oven.cpp says it.
import type { FridgeAnswer } from "../api/types";
import type { Habits } from "./habits";
import { lasting, plain, warmth } from "./say";

export const air = ({ air_peak_C, air_peak_h }: FridgeAnswer, habits: Habits) => `warms to ${warmth(air_peak_C, habits)}, ${plain(air_peak_h, 1, habits)} h after loading`;

export const middle = ({ wanted_C, cold_after_h, looked_h }: FridgeAnswer, habits: Habits) =>
  cold_after_h === null ? `not ${warmth(wanted_C, habits)} within ${lasting(looked_h)}` : `${warmth(wanted_C, habits)} after ${plain(cold_after_h, 1, habits)} h`;

export function at_once({ pieces_at_once, wanted_C, within_h }: FridgeAnswer, habits: Habits): string {
  const cold = `is at ${warmth(wanted_C, habits)} within ${lasting(within_h)}`;
  return pieces_at_once > 0 ? `${pieces_at_once} ${pieces_at_once === 1 ? "piece" : "pieces"} so that each ${cold}, if there is room` : `not even one ${cold}`;
}

export const power = ({ power_W, with: known }: FridgeAnswer) => `${Math.round(power_W)} W${known === "" ? ", a guess until you give a probe's file" : `: ${known}`}`;
