// The cultures of the house.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { CultureRecordList, CultureRecord, LarderListAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice, Field } from "../../parts/field";
import { NotYet } from "../../parts/not_yet";
import { go, link } from "../../shell/router";
import { useTyping } from "../../state/drafts";
import "../bakes/bakes.css";

export default function CulturesScreen() {
  const held = useAnswer<CultureRecordList>("/api/cultures", ["culture"]);
  const { answer } = held;
  if (!answer) return <NotYet what="cultures" held={held} waiting="Looking into the jars…" />;
  return (
    <div class="stack">
      <h1>Cultures</h1>
      {answer.cultures.length === 0 && <p>No culture is written down yet. What your doughs show is remembered for each.</p>}
      <ul class="bare bake-list">
        {answer.cultures.map((culture) => (
          <li key={culture.id}>
            <a href={link("culture", culture.id)}>
              <strong>{culture.title}</strong>
              <span class="quiet small">{culture.starter}</span>
            </a>
          </li>
        ))}
      </ul>
      <NewCulture />
    </div>
  );
}

function NewCulture() {
  const larder = useAnswer<LarderListAnswer>("/api/larder").answer?.ingredients ?? [];
  const starters = larder.filter((i) => i.group === "starter").map((i) => i.name);
  const typing = useTyping("new.culture", { name: "", starter: "stiff ripe levain" });
  const { name, starter } = typing.value;
  const [wrong, set_wrong] = useState("");
  const add = async (event: Event) => {
    event.preventDefault();
    try {
      const made = await post<CultureRecord>("/api/cultures", {
        title: name.trim(),
        starter,
        flour: "white bread flour",
        feed: "1:2:1",
        temperature_C: 26,
      });
      typing.clear();
      go(link("culture", made.id));
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <details open={typing.typed_before}>
      <summary>Add a culture</summary>
      <form class="stack" onSubmit={(e) => void add(e)}>
        <div class="pair">
          <Field label="Name" wrong={wrong}>
            {(attributes) => <input {...attributes} value={name} required onInput={(e) => typing.set({ name: e.currentTarget.value })} />}
          </Field>
          <Choice label="Most like" value={starter} options={(starters.length ? starters : [starter]).map((s) => [s, s] as const)} give={(like) => typing.set({ starter: like })} />
        </div>
        <div>
          <button type="submit" class="main">
            Write it down
          </button>
        </div>
      </form>
    </details>
  );
}
