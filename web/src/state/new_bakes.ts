// Bakes that are not in the daybook yet: each a draft of this browser until the baker saves it. Only then does it stand among the
// others, on every device.
import type { Bake } from "../api/bakes";
import { type Form, text } from "./bake";
import type { KeptBake } from "./bake_draft";
import { draft, drafts, keep_draft } from "./drafts";
import { new_id } from "./outbox";

const beginning = "bake.";
export const draft_of = (id: string) => beginning + id;

/** Gives its id, which it keeps when it is saved. */
export function begin_bake(form: Form): string {
  const id = new_id();
  keep_draft<KeptBake>(draft_of(id), { form, base: form }, 0);
  return id;
}

/** As it will stand in the daybook; nothing when it was saved or given up. */
export function unsaved_bake(id: string): Bake | undefined {
  const kept = draft<KeptBake>(draft_of(id));
  if (kept?.value.form === undefined || kept.revision !== 0) return undefined;
  const { base } = kept.value;
  return {
    id, form: base, revision: 0, toml: "", title: text(base, "name"), state: "planned", culture: null, note: "", tags: [],
    saved_at: kept.kept_at, deleted_at: null, mixed_at: null, finished_at: null,
  };
}

export interface Unsaved {
  id: string;
  title: string;
  kept_at: string;
}

/** Newest first. */
export function unsaved_bakes(): Unsaved[] {
  return drafts(beginning).flatMap((name) => {
    const kept = draft<KeptBake>(name);
    return kept?.revision === 0 ? [{ id: name.slice(beginning.length), title: text(kept.value.form, "name"), kept_at: kept.kept_at }] : [];
  });
}
