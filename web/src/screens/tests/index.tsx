// All test bakes: a question each, answered by doughs that differ.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { BakeRecordList, TestBakeRecord, TestBakeRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice, Field } from "../../parts/field";
import { Failed, Waiting } from "../../parts/states";
import { iso, now } from "../../say/clock";
import { go, link } from "../../shell/router";
import { useTyping } from "../../state/drafts";
import { fresh } from "../../state/test_bake";

const state_words: Record<TestBakeRecord["state"], string> = {
  planned: "planned",
  live: "running",
  finished: "finished",
  given_up: "given up",
};

export default function TestsScreen() {
  const held = useAnswer<TestBakeRecordList>("/api/test-bakes?limit=200", ["test_bake"]);
  const tests = held.answer?.["test-bakes"] ?? [];
  return (
    <div class="stack">
      <h1>Test bakes</h1>
      <p class="quiet">A dough did not rise. Was it the alcohol, the sulphite, the acid? A few doughs that differ in one thing each can tell.</p>
      {!held.answer && (held.error ? <Failed error={held.error} again={held.again} /> : <Waiting what="Fetching the test bakes…" />)}
      <ul class="bare stack tight">
        {tests.map((test) => (
          <li key={test.id}>
            <a class="sheet stack tight test-link" href={link("test", test.id)}>
              <span class="row apart">
                <strong>{test.title}</strong> <span class="quiet small">{state_words[test.state]}</span>
              </span>
              <span>{test.question}</span>
            </a>
          </li>
        ))}
      </ul>
      <NewTest />
    </div>
  );
}

function NewTest() {
  const bakes = useAnswer<BakeRecordList>("/api/bakes?limit=200", ["bake"]).answer?.bakes;
  const typing = useTyping("new.test", { title: "", question: "", base: "" });
  const { title, question, base } = typing.value;
  const [wrong, set_wrong] = useState("");
  const chosen = base || bakes?.[0]?.id || "";
  const add = async (event: Event) => {
    event.preventDefault();
    try {
      const seed = 1 + Math.floor(Math.random() * 1e6);
      const document = JSON.stringify(fresh(chosen, iso(now()).slice(0, 10), seed));
      const made = await post<TestBakeRecord>("/api/test-bakes", { title: title.trim(), question: question.trim(), document });
      typing.clear();
      go(link("test", made.id));
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  // Before they are known nothing is said of them.
  if (!bakes) return null;
  if (bakes.length === 0)
    return (
      <p>
        A test bake starts from a bake, and none is written down. <a href={link("first")}>Your first bake</a> takes a minute.
      </p>
    );
  return (
    <details open={typing.typed_before}>
      <summary>A new question</summary>
      <form class="stack" onSubmit={(event) => void add(event)}>
        <Field label="Name" wrong={wrong}>
          {(attributes) => <input {...attributes} required value={title} onInput={(e) => typing.set({ title: e.currentTarget.value })} />}
        </Field>
        <Field label="The question, in your words">
          {(attributes) => <textarea {...attributes} value={question} onInput={(e) => typing.set({ question: e.currentTarget.value })} />}
        </Field>
        <Choice label="The bake it is about" value={chosen} options={bakes.map((bake) => [bake.id, bake.title] as const)} give={(id) => typing.set({ base: id })} />
        <div>
          <button type="submit" class="main">
            Begin
          </button>
        </div>
      </form>
    </details>
  );
}
