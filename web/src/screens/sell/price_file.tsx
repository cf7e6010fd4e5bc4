// What things cost, as one text for the whole bakery: kept in the daybook, checked by the server as it is saved.
import { useState } from "preact/hooks";
import { after_restore, conflicting, get, post, put, Refusal, words_of } from "../../api/ask";
import { price_setting } from "../../api/shop";
import type { SettingRecord } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Field } from "../../parts/field";
import { Waiting } from "../../parts/states";
import { PriceForm } from "./price_form";
import { draft, drop_draft, give_up, keep_draft } from "../../state/drafts";
import { can_undo } from "../../state/undo";

const name = `record.settings.${price_setting}`;

interface Example {
  text: string;
}

export function PriceFile() {
  const held = useAnswer<SettingRecord>(`/api/settings/${price_setting}`, ["setting"]);
  const missing = held.error instanceof Refusal && held.error.problem.code === "not_found";
  if (!held.answer && !held.error) return <Waiting what="Fetching the price file…" />;
  if (held.error && !missing && !held.answer) return <p class="note">{words_of(held.error)}</p>;
  return <Editor record={held.answer} again={held.again} />;
}

function Editor({ record, again }: { record: SettingRecord | undefined; again: () => void }) {
  const kept = draft<string>(name);
  const typed = kept?.value;
  const set_typed = (text: string) => keep_draft(name, text, kept?.revision ?? record?.revision ?? 0);
  const [wrong, set_wrong] = useState("");
  const [theirs, set_theirs] = useState<SettingRecord | undefined>(undefined);
  const text = typed ?? record?.value ?? "";
  const save = async () => {
    try {
      await post("/api/prices", { prices: text });
      await put(`/api/settings/${price_setting}`, { value: text, revision: theirs?.revision ?? kept?.revision ?? record?.revision ?? 0 });
      if (draft<string>(name)?.value === text) drop_draft(name);
      set_theirs(undefined);
      set_wrong("");
      again();
    } catch (error) {
      const now = conflicting<SettingRecord>(error);
      if (now) set_theirs(now);
      const at = error instanceof Refusal && error.problem.where ? `${error.problem.where} ` : "";
      set_wrong(now ? `${after_restore(error) ? "The daybook was put back from a copy since you typed this." : "This was changed elsewhere meanwhile."} Save again to let yours hold.` : at + words_of(error));
    }
  };
  const as_it_was = () => {
    can_undo("The price file you typed is dropped.", give_up(name));
    set_theirs(undefined);
    set_wrong("");
  };
  const example = async () => {
    try {
      set_typed((await get<Example>("/api/prices/example")).text);
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <section class="stack" aria-labelledby="price-file">
      <h2 id="price-file">What things cost</h2>
      {text.trim() === "" ? (
        <div class="stack tight">
          <p>Nothing is written down yet.</p>
          <div>
            <button type="button" class="main" onClick={() => void example()}>
              Start from an invented example
            </button>
          </div>
        </div>
      ) : (
        <PriceForm text={text} give={set_typed} />
      )}
      <details>
        <summary>As a file: import and export</summary>
        <div class="stack tight">
          <p class="quiet">The same in one text for the whole bakery. It is checked when you save; nothing is kept that cannot be read.</p>
          <Field label="Price file">
            {(attributes) => <textarea {...attributes} class="file" spellcheck={false} rows={24} value={text} onInput={(e) => set_typed(e.currentTarget.value)} />}
          </Field>
        </div>
      </details>
      {(typed !== undefined || wrong) && (
        <div class="save-bar">
          <span class="small" role={wrong ? "alert" : "status"}>
            {wrong || "Not saved yet; kept in this browser."}
          </span>
          <span class="row">
            <button type="button" onClick={as_it_was}>
              As it was
            </button>
            <button type="button" class="main" disabled={typed === undefined || typed === record?.value} onClick={() => void save()}>
              Save
            </button>
          </span>
        </div>
      )}
    </section>
  );
}
