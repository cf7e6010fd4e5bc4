// One test bake, from question to verdict.
import { useState } from "preact/hooks";
import type { TestDocument } from "../../api/tests";
import type { TestBakeRecord } from "../../api/types";
import { useAnswer } from "../../api/use";
import { SaveRow, useChanging } from "../../parts/record";
import { Failed, Waiting } from "../../parts/states";
import { iso, now } from "../../say/clock";
import type { Params } from "../../shell/places";
import { asking, document_from } from "../../state/test_bake";
import { Before } from "./before";
import { HowFar } from "./how_far";
import { Next } from "./next";
import { Plan } from "./plan";
import { Question } from "./question";
import { Readings } from "./readings";
import { Show } from "./show";
import { Tasting } from "./tasting";
import { Verdict } from "./verdict";
import "./test.css";

const parts = ["Question", "Before", "Plan", "Readings", "Verdict", "Next", "How far", "Tasting", "Show"] as const;
type Part = (typeof parts)[number];

export default function TestScreen({ params }: { params: Params }) {
  const held = useAnswer<TestBakeRecord>(`/api/test-bakes/${encodeURIComponent(params.id ?? "")}`, ["test_bake"]);
  if (!held.answer) return held.error ? <Failed error={held.error} again={held.again} /> : <Waiting what="Fetching the test bake…" />;
  return <Test key={held.answer.id} record={held.answer} />;
}

function Test({ record }: { record: TestBakeRecord }) {
  const changing = useChanging<TestBakeRecord>("/api/test-bakes", record);
  const { value, set } = changing;
  const doc = document_from(value.document, "", iso(now()).slice(0, 10));
  const [part, set_part] = useState<Part>(doc.looks.length > 0 ? "Verdict" : "Question");
  const change = (what: Partial<TestDocument>) => set({ document: JSON.stringify({ ...doc, ...what }) });
  const what = asking(value.title, value.question, doc);
  return (
    <div class="stack">
      <header class="stack tight">
        <h1>{value.title}</h1>
        {value.question && <p>{value.question}</p>}
        <div class="leaves" role="group" aria-label="Parts of this test bake">
          {parts.map((name) => (
            <button key={name} type="button" aria-pressed={part === name} onClick={() => set_part(name)}>
              {name}
            </button>
          ))}
        </div>
      </header>
      {(changing.unsaved || changing.wrong) && <SaveRow changing={changing} />}
      {part === "Question" && <Question record={value} doc={doc} set={set} change={change} />}
      {part === "Before" && <Before what={what} />}
      {part === "Plan" && <Plan what={what} />}
      {part === "Readings" && <Readings doc={doc} change={change} />}
      {part === "Verdict" && <Verdict what={what} read={doc.looks.length} />}
      {part === "Next" && <Next what={what} />}
      {part === "How far" && <HowFar base_id={doc.base_id} within_h={doc.within_h} />}
      {part === "Tasting" && <Tasting doughs={doc.doughs.map((d) => d.name)} seed={doc.seed} />}
      {part === "Show" && <Show what={what} remark={doc.remark} />}
    </div>
  );
}
