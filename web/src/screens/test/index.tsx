// One test bake, from question to verdict.
import { useState } from "preact/hooks";
import type { JarLook, TestDocument } from "../../api/test_bakes";
import type { TestBakeRecord } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Leaves } from "../../parts/leaves";
import { SaveRow, useChanging } from "../../parts/record";
import { InTrash, NotYet } from "../../parts/not_yet";
import { iso, now } from "../../say/clock";
import type { Params } from "../../shell/names";
import { looks_of } from "../../state/outbox";
import { asking, document_from, looks_with } from "../../state/test_bake";
import { useOnTheWay } from "../../state/waiting";
import { Before } from "./before";
import { Next } from "./next";
import { Plan } from "./plan";
import { Question } from "./question";
import { Readings } from "./readings";
import { Show } from "./show";
import { Tasting } from "./tasting";
import { Verdict } from "./verdict";
import "./test.css";

const parts = ["Question", "Plan", "Read", "Verdict", "Taste", "Show"] as const;
type Part = (typeof parts)[number];

const to_tests = { list: "tests", words: "To the test bakes" };

export default function TestScreen({ params }: { params: Params }) {
  const held = useAnswer<TestBakeRecord>(`/api/test-bakes/${encodeURIComponent(params.id ?? "")}`, ["test_bake"]);
  if (!held.answer) return <NotYet what="test bake" held={held} waiting="Fetching the test bake…" {...to_tests} />;
  if (held.answer.deleted_at !== null) return <InTrash record={held.answer} what="test bake" route="/api/test-bakes" {...to_tests} />;
  return <Test key={held.answer.id} record={held.answer} asked_ms={held.asked_ms} />;
}

/** A test bake with the fields of its document as its own. */
type Fields = Pick<TestBakeRecord, "id" | "revision" | "title" | "question" | "state" | "document"> & Omit<TestDocument, "looks">;

const of_record = ["title", "question", "state"] as const;

function fields_of(record: TestBakeRecord): Fields {
  const { looks: _, ...doc } = document_of(record.document);
  const { id, revision, title, question, state, document } = record;
  return { ...doc, id, revision, title, question, state, document };
}

/** Changed fields as the daybook takes them: those of the document in the document as it stands, with all its looks. */
function to_send(changes: Partial<Fields>, over: Fields): object {
  const own = Object.entries(changes).filter(([key]) => of_record.some((k) => k === key));
  const within = Object.entries(changes).filter(([key]) => !of_record.some((k) => k === key));
  const document = within.length > 0 ? { document: JSON.stringify({ ...document_of(over.document), ...Object.fromEntries(within) }) } : {};
  return { ...Object.fromEntries(own), ...document };
}

const document_of = (text: string) => document_from(text, "", iso(now()).slice(0, 10));

/** The heights of all jars: those of the daybook, and those on their way to it. */
function useLooks(test: string, document: string, asked_ms: number): JarLook[] {
  const waiting = useOnTheWay(asked_ms);
  return looks_of(waiting, test).reduce((looks, { look, taken_out }) => looks_with(looks, look, taken_out), [...document_of(document).looks]);
}

function Test({ record, asked_ms }: { record: TestBakeRecord; asked_ms: number }) {
  const changing = useChanging<Fields>("/api/test-bakes", fields_of(record), to_send, (answer) => fields_of(answer as TestBakeRecord));
  const { value, set } = changing;
  const looks = useLooks(record.id, value.document, asked_ms);
  const { id: _, revision: __, title, question, state, document: ___, ...fields } = value;
  const doc: TestDocument = { ...fields, looks };
  const [part, set_part] = useState<Part>(doc.looks.length > 0 ? "Verdict" : "Question");
  const what = asking(title, question, doc);
  return (
    <div class="stack">
      <header class="stack tight">
        <h1>{title}</h1>
        {question && <p>{question}</p>}
        <Leaves label="Parts of this test bake" leaves={parts.map((name) => [name, name] as const)} here={part} give={set_part} />
      </header>
      {(changing.unsaved || changing.wrong) && <SaveRow changing={changing} />}
      {part === "Question" && (
        <>
          <Question test={record.id} record={{ question, state }} doc={doc} set={set} change={set} />
          <Before what={what} />
        </>
      )}
      {part === "Plan" && <Plan what={what} />}
      {part === "Read" && <Readings test={record.id} doc={doc} what={what} change={set} />}
      {part === "Verdict" && (
        <>
          <Verdict what={what} read={doc.looks.length} />
          <Next what={what} />
        </>
      )}
      {part === "Taste" && <Tasting test={record.id} doughs={doc.doughs.map((d) => d.name)} seed={doc.seed} />}
      {part === "Show" && <Show what={what} remark={doc.remark} title={title} />}
    </div>
  );
}
