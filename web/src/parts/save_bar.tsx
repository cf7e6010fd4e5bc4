// At the foot of a recipe that was changed: what is not saved yet, the way back, and saving it.
import { useState } from "preact/hooks";
import { words_of } from "../api/ask";
import type { BakeDraft } from "../state/bake_draft";
import { Conflict } from "./conflict";

/** `saved`: what follows when it is in the daybook. */
export function SaveBar({ draft, saved }: { draft: BakeDraft; saved?: (() => void) | undefined }) {
  const [trouble, set_trouble] = useState<unknown>(undefined);
  const save = () => {
    set_trouble(undefined);
    draft.save().then(saved, set_trouble);
  };
  return (
    <>
      {(draft.unsaved || draft.undo || trouble !== undefined) && (
        <div class="save-bar no-print">
          <span role="status" class="small">
            {trouble ? words_of(trouble) : draft.unsaved ? "Changes not saved yet; kept in this browser." : "Saved."}
          </span>
          <span class="row">
            <button type="button" onClick={draft.undo} disabled={!draft.undo}>
              Undo
            </button>
            <button type="button" class="main" onClick={save} disabled={!draft.unsaved}>
              Save
            </button>
          </span>
        </div>
      )}
      {draft.other && draft.unsaved && <Conflict draft={draft} other={draft.other} />}
    </>
  );
}
