// Readings in the words of the terminal: "6.5h 52 mm 23.5 C bulk 24 C room 21 C pH 4.9".
import type { ReadingRecordChange } from "./types";
import { type Moment, from_utc, hours_between } from "../say/clock";

/**
 * A reading as `barm foresee --reading` takes it, its hours so that the second is told from the next: every screen foresees what the
 * daybook does. Nothing for one that says nothing of the dough, or was before mixing.
 */
export function typed_reading(reading: Omit<ReadingRecordChange, "bake">, mixed: Moment): string | undefined {
  const at = from_utc(reading.at);
  if (at === undefined) return undefined;
  const h = hours_between(mixed, at);
  const parts = [
    ...(reading.height_mm != null ? [`${reading.height_mm} mm`] : []),
    ...(reading.height_mm == null && reading.ratio != null ? [`${reading.ratio}x`] : []),
    ...(reading.sample_C != null ? [`${reading.sample_C} C`] : []),
    ...(reading.bulk_C != null ? [`bulk ${reading.bulk_C} C`] : []),
    ...(reading.room_C != null ? [`room ${reading.room_C} C`] : []),
    ...(reading.ph != null ? [`pH ${reading.ph}`] : []),
  ];
  return h < 0 || parts.length === 0 ? undefined : `${Math.round(h * 1e5) / 1e5}h ${parts.join(" ")}`;
}
