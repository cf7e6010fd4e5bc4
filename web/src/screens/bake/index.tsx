// The recipe of one bake, and what comes of it: every change shows at once in the bowl, the ready window, the hours lost.
import { useAnswer } from "../../api/use";
import { Refusal } from "../../api/ask";
import { type Bake as TheBake, mixed_of } from "../../api/bakes";
import type { LarderListAnswer } from "../../api/types";
import { BakeFrame } from "../../parts/bake_frame";
import { type BakeDraft, useBakeDraft } from "../../state/bake_draft";
import { Fridge } from "./fridge";
import { Oven } from "./oven";
import type { Params } from "../../shell/names";
import { useHabits } from "../../say/say";
import { Answer, InTheBowl, Why } from "./answer";
import { AsFile } from "./as_file";
import { Recipe } from "./recipe";
import { Parent } from "./parent";
import { StageFields } from "./stages";
import { State } from "./state";
import { useForesight } from "../../state/foresight";
import { useReadOfIt } from "../../state/known_readings";
import { AnswerTop } from "../../parts/answer_top";
import { state_words } from "../../parts/bake_frame";
import { Field } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { set, text } from "../../state/bake";
import { SaveBar } from "../../parts/save_bar";
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
  const larder = useAnswer<LarderListAnswer>("/api/larder").answer?.ingredients ?? [];
  const mixed = mixed_of(record, draft.form);
  const foresight = useForesight(draft.form, record, useReadOfIt(record, mixed));
  const habits = useHabits();
  const problem = foresight.error instanceof Refusal ? foresight.error.problem : undefined;
  return (
    <div class="bake-screen">
      <div class="top head-of-all">
        <AnswerTop foresight={foresight} mixed={mixed} state={record.state} />
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
        {saved && <Name draft={draft} />}
        <div>
          <StageFields draft={draft} problem={problem} />
          <Fridge form={draft.form} />
          <Oven draft={draft} problem={problem} />
          {saved ? (
            <AsFile form={draft.form} />
          ) : (
            <Fold title="This bake" fact={state_words[record.state]} seldom>
              <Name draft={draft} />
              <State record={record} />
              <AsFile form={draft.form} />
            </Fold>
          )}
        </div>
        <Parent record={record} form={draft.form} />
      </div>
      <div class="why stack">
        <Why foresight={foresight} mixed={mixed} />
      </div>
      <div class="rest stack">
        <Answer foresight={foresight} mixed={mixed} record={record} form={draft.form} />
        {foresight.answer && <InTheBowl bowl={foresight.answer.bowl} habits={habits} />}
      </div>
      <SaveBar draft={draft} saved={saved} />
    </div>
  );
}

function Name({ draft }: { draft: BakeDraft }) {
  return (
    <Field label="Name">
      {(attributes) => <input {...attributes} value={text(draft.form, "name")} maxLength={200} onInput={(e) => draft.change(set(draft.form, "name", e.currentTarget.value))} />}
    </Field>
  );
}
