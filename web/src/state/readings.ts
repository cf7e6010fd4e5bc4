// Readings as the jar gives them: heights in millimetres, or volumes against mixing.
import type { ReadingRecord } from "../api/types";
import { type Moment, from_utc, hours_between } from "../say/clock";

type Read = Pick<ReadingRecord, "at" | "height_mm" | "ratio">;

/** Oldest first. */
export const in_time = <T extends { at: string }>(readings: readonly T[]): T[] =>
  [...readings].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));

/** The height at mixing: the first height that was read. */
export function start_height(readings: readonly Read[]): number | undefined {
  return in_time(readings).find((r) => r.height_mm !== null)?.height_mm ?? undefined;
}

/** Volume against mixing of every reading that says one, in hours after mixing. */
export function ratios(readings: readonly Read[], mixed: Moment | undefined): { t_h: number; ratio: number }[] {
  if (mixed === undefined) return [];
  const start = start_height(readings);
  return in_time(readings).flatMap((reading) => {
    const at = from_utc(reading.at);
    const ratio =
      reading.ratio ?? (reading.height_mm !== null && start ? reading.height_mm / start : undefined);
    return at === undefined || ratio === undefined ? [] : [{ t_h: hours_between(mixed, at), ratio }];
  });
}
