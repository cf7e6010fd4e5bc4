// The recipe of one bake, and what comes of it: every change shows at once in the bowl, the ready window, the hours lost.
import { useState } from "preact/hooks";
import { useAnswer } from "../../api/use";
import { Refusal, words_of } from "../../api/ask";
import { type Bake as TheBake, mixed_of } from "../../api/bakes";
import type { LarderListAnswer } from "../../api/types";
import { BakeFrame } from "../../parts/bake_frame";
import { useBakeDraft } from "../../state/bake_draft";
import type { Params } from "../../shell/places";
import { Answer, AnswerTop, Why } from "./answer";
import { Conflict } from "./conflict";
import { Oven } from "./oven";
import { Recipe } from "./recipe";
import { State } from "./state";
import { useForesight } from "./foresight";
import "./bake.css";

export default function BakeScreen({ params }: { params: Params }) {
  const id = params.id ?? "";
  return (
    <BakeFrame id={id} here="Recipe">
      {(record) => <Bake key={record.id} record={record} />}
    </BakeFrame>
  );
}

/** `saved`: what follows when a bake that was not in the daybook yet is in it. */
export function Bake({ record, saved }: { record: TheBake; saved?: () => void }) {
  const draft = useBakeDraft(record);
  const foresight = useForesight(draft.form, record.culture);
  const larder = useAnswer<LarderListAnswer>("/api/larder").answer?.ingredients ?? [];
  const [trouble, set_trouble] = useState<unknown>(undefined);
  const mixed = mixed_of(record, draft.form);
  const save = () => {
    set_trouble(undefined);
    draft.save().then(saved, set_trouble);
  };
  const problem = foresight.error instanceof Refusal ? foresight.error.problem : undefined;
  return (
    <div class="bake-screen">
      <div class="top">
        <AnswerTop foresight={foresight} mixed={mixed} />
      </div>
      <div class="why stack">
        <Why foresight={foresight} mixed={mixed} />
      </div>
      <div class="recipe stack">
        {draft.brought_back && draft.unsaved && !saved && (
          <p class="note" role="status">
            Your unsaved changes were brought back.{" "}
            <button type="button" class="plain" onClick={draft.discard}>
              Drop them
            </button>
          </p>
        )}
        <Recipe draft={draft} larder={larder} bowl={foresight.answer?.bowl} problem={problem} record={record} />
        {!saved && <State record={record} />}
      </div>
      <div class="rest stack">
        <Answer foresight={foresight} mixed={mixed} record={record} form={draft.form} />
        <Oven draft={draft} problem={problem} />
      </div>
      {(draft.unsaved || draft.undo || trouble !== undefined) && <div class="save-bar no-print">
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
      </div>}
      {draft.other && draft.unsaved && <Conflict draft={draft} other={draft.other} />}
    </div>
  );
}
