// The last thing thrown away, with the way back, at the foot of every screen.
import { useState } from "preact/hooks";
import { words_of } from "../api/ask";
import { last_thrown } from "../state/undo";

export function UndoBar() {
  const thrown = last_thrown.value;
  const [wrong, set_wrong] = useState<{ of: unknown; words: string } | undefined>(undefined);
  const undo = async () => {
    try {
      await thrown?.undo();
      if (last_thrown.value === thrown) last_thrown.value = undefined;
    } catch (error) {
      set_wrong({ of: thrown, words: words_of(error) });
    }
  };
  return (
    <div class="undo-place no-print" role="status">
      {thrown && (
        <div class="undo-bar">
          <span>{wrong?.of === thrown ? wrong.words : thrown.words}</span>
          <span class="row">
            <button type="button" onClick={() => void undo()}>
              Undo
            </button>
            <button type="button" class="square" aria-label="Close" onClick={() => (last_thrown.value = undefined)}>
              ✕
            </button>
          </span>
        </div>
      )}
    </div>
  );
}
