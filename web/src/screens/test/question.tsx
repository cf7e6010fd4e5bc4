// The question and the doughs that are to answer it.
import type { TestDocument } from "../../api/tests";
import type { BakeRecordList, TestBakeRecord } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice, Field, Figure } from "../../parts/field";
import { plain, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { useTyping } from "../../state/drafts";
import { usual_doughs } from "../../state/test_bake";

interface Props {
  test: string;
  record: Pick<TestBakeRecord, "question" | "state">;
  doc: TestDocument;
  set: (what: Partial<Pick<TestBakeRecord, "question" | "state">>) => void;
  change: (what: Partial<Omit<TestDocument, "looks">>) => void;
}

export function Question({ test, record, doc, set, change }: Props) {
  const habits = useHabits();
  const bakes = useAnswer<BakeRecordList>("/api/bakes?limit=200", ["bake"]).answer?.bakes ?? [];
  const named = new Set(doc.doughs.map((d) => d.name));
  return (
    <div class="stack">
      <Field label="The question">
        {(attributes) => <textarea {...attributes} value={record.question} onInput={(e) => set({ question: e.currentTarget.value })} />}
      </Field>
      <div class="pair">
        <Choice label="The bake it is about" value={doc.base_id} options={bakes.map((b) => [b.id, b.title] as const)} give={(base_id) => change({ base_id })} />
        <Choice
          label="It is"
          value={record.state}
          options={[
            ["planned", "planned"],
            ["live", "alive now"],
            ["finished", "finished"],
            ["given_up", "given up"],
          ]}
          give={(state) => set({ state })}
        />
        <Figure label="Time allowed (h)" shown={plain(doc.within_h, 1, habits)} read={typed.number} give={(within_h) => change({ within_h })} />
        <Figure label="Each dough (g)" shown={plain(doc.amount_g, 0, habits)} read={typed.number} give={(amount_g) => change({ amount_g })} />
        <Figure label="Jars of each dough a day" shown={plain(doc.jars, 0, habits)} read={typed.number} give={(jars) => change({ jars: Math.round(jars) })} />
        <Figure label="Height at the first mark (mm)" shown={plain(doc.jar_mm, 0, habits)} read={typed.number} give={(jar_mm) => change({ jar_mm })} />
      </div>
      <Days test={test} doc={doc} change={change} />
      <section class="stack tight" aria-labelledby="doughs">
        <h2 id="doughs">The doughs</h2>
        {doc.doughs.map((dough, i) => (
          <div key={i} class="sheet stack tight">
            <Field label={`Dough ${i + 1}`}>
              {(attributes) => (
                <input
                  {...attributes}
                  value={dough.name}
                  onInput={(e) => change({ doughs: doc.doughs.map((d, k) => (k === i ? { ...d, name: e.currentTarget.value } : d)) })}
                />
              )}
            </Field>
            <Field label="How it is made from the bake, one step a line" hint="such as  plain  or  match alcohol with neutral spirit; empty: the bake as it is">
              {(attributes) => (
                <textarea
                  {...attributes}
                  class="steps-of"
                  value={dough.make.join("\n")}
                  onInput={(e) => {
                    const make = e.currentTarget.value.split("\n").filter((line) => line.trim() !== "");
                    change({ doughs: doc.doughs.map((d, k) => (k === i ? { ...d, make } : d)) });
                  }}
                />
              )}
            </Field>
            <div>
              <button type="button" aria-label={`Take ${dough.name} out`} onClick={() => change({ doughs: doc.doughs.filter((_, k) => k !== i) })}>
                Take it out
              </button>
            </div>
          </div>
        ))}
        <h3>One more</h3>
        <div class="row">
          {usual_doughs
            .filter((d) => !named.has(d.name))
            .map((d) => (
              <button key={d.name} type="button" onClick={() => change({ doughs: [...doc.doughs, d] })}>
                {d.name}
              </button>
            ))}
          <button type="button" onClick={() => change({ doughs: [...doc.doughs, { name: `dough ${doc.doughs.length + 1}`, make: [] }] })}>
            something else
          </button>
        </div>
      </section>
      <Field label="Private remark" hint="left out of what is shown to others">
        {(attributes) => <textarea {...attributes} value={doc.remark} onInput={(e) => change({ remark: e.currentTarget.value })} />}
      </Field>
    </div>
  );
}

function Days({ test, doc, change }: Pick<Props, "test" | "doc" | "change">) {
  const typing = useTyping(`day.${test}`, { day: "" });
  const { day } = typing.value;
  return (
    <fieldset class="stack tight">
      <legend>Days; every dough is baked on every day</legend>
      <ul class="bare row">
        {doc.days.map((d) => (
          <li key={d} class="row">
            {d}
            <button type="button" class="square" aria-label={`Take ${d} out`} onClick={() => change({ days: doc.days.filter((other) => other !== d) })}>
              ✕
            </button>
          </li>
        ))}
      </ul>
      <div class="row">
        <Field label="Another day">
          {(attributes) => <input {...attributes} type="date" value={day} onInput={(e) => typing.set({ day: e.currentTarget.value })} />}
        </Field>
        <button
          type="button"
          disabled={day === "" || doc.days.includes(day)}
          onClick={() => {
            change({ days: [...doc.days, day].sort() });
            typing.clear();
          }}
        >
          Add the day
        </button>
      </div>
    </fieldset>
  );
}
