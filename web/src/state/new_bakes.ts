// Bakes that are not in the daybook yet: each a draft of this browser until the baker saves it. Only then does it stand among the
// others, on every device.
import type { Bake } from "../api/bakes";
import { iso, now } from "../say/clock";
import { type Form, set, text } from "./bake";
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

const again_of = "again:";

/** Begins the same recipe once more, from the next full hour on. */
export function begin_again(parent: Pick<Bake, "id" | "form">): string {
  const { weighed: _, ...recipe } = parent.form;
  const id = new_id();
  const form = set(recipe, "mixed", `${iso(now()).slice(0, 13)}:00:00`);
  keep_draft<KeptBake>(draft_of(id), { form, base: form, parent: parent.id }, 0);
  return id;
}

/** The bake that this one was baked again from. */
export const parent_of = ({ tags }: Pick<Bake, "tags">) => tags.find((tag) => tag.startsWith(again_of))?.slice(again_of.length);

/** As it will stand in the daybook; nothing when it was saved or given up. */
export function unsaved_bake(id: string): Bake | undefined {
  const kept = draft<KeptBake>(draft_of(id));
  if (kept?.value.form === undefined || kept.revision !== 0) return undefined;
  const { base, parent } = kept.value;
  return {
    id, form: base, revision: 0, toml: "", title: text(base, "name"), state: "planned", culture: null, note: "", tags: parent ? [again_of + parent] : [],
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
