// The last thing that was thrown away, and how to have it back: shown on every screen until something else is, or somebody
// takes it off.
import { signal } from "@preact/signals";
import { post, remove } from "../api/ask";

export interface Undoable {
  /** "The reading of Sat 15:30 is in the trash." */
  words: string;
  undo: () => unknown;
}

export const last_thrown = signal<Undoable | undefined>(undefined);

export function can_undo(words: string, undo: () => unknown): void {
  last_thrown.value = { words, undo };
}

/** Into the trash with a record of the daybook: ("readings", id, "The reading of Sat 15:30"). Errors: Refusal, Away. */
export async function throw_away(kind: string, id: string, what: string): Promise<void> {
  await remove(`/api/${kind}/${encodeURIComponent(id)}`);
  can_undo(`${what} is in the trash.`, () => post(`/api/${kind}/${encodeURIComponent(id)}/undo`, {}));
}
