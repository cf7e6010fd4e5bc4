// What the server tells beside its answers: which daybook it answers from, and whether it can write into it. Codes of problems the
// page has words of its own for:
//   restored    409  the change began with a revision that went when a copy was put back; `current` is the record now
//   read_only   503  the daybook can be read and not written
//   no_room     507  the disk of the server is full
import { signal } from "@preact/signals";
import { keep_text, kept_text } from "../state/store";
import type { Problem } from "./types";

/** The epoch of the daybook, new after each restore, said in every answer. */
export const daybook_header = "Barm-Daybook";
const place = "barm.daybook";

/** Nothing can be saved now, and why; shown on every screen. */
export const cannot_save = signal<Problem | undefined>(undefined);
/** The daybook is another than the one this page knew, until somebody has read that. */
export const another_daybook = signal(false);

const of_saving = ["read_only", "no_room"];
export const stops_saving = (problem: Problem) => of_saving.includes(problem.code);

/** What GET /api/status may say beside what it is. */
export interface SavingStatus {
  /** Why nothing can be saved; null when it can. */
  cannot_save?: Problem | null;
}

export function hear_status(status: SavingStatus): void {
  if (status.cannot_save !== undefined) cannot_save.value = status.cannot_save ?? undefined;
}

let epoch = kept_text(place);
export const known_epoch = () => epoch;

/** Whether this is the first word of another daybook than before. */
export function heard_epoch(told: string | null): boolean {
  if (told === null || told === epoch) return false;
  const another = epoch !== null;
  epoch = told;
  keep_text(place, told);
  if (another) another_daybook.value = true;
  return another;
}
