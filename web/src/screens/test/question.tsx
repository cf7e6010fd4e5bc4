// The question and the doughs that are to answer it.
import type { TestDocument } from "../../api/test_bakes";
import type { BakeRecordList, TestBakeRecord } from "../../api/types";
import { useAnswer } from "../../api/use";
import { DayField } from "../../parts/day_field";
import { Choice, Field, Figure } from "../../parts/field";
import { day_words } from "../../say/clock";
import { Fold } from "../../parts/fold";
import { percent_figure, plain, scale_figure, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { useTyping } from "../../state/drafts";
import { causes, with_cause } from "../../state/test_bake";

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
  return (
    <div class="stack">
      <Field label="The question">
        {(attributes) => <textarea {...attributes} value={record.question} onInput={(e) => set({ question: e.currentTarget.value })} />}
      </Field>
      <Causes doc={doc} change={change} />
      <div class="pair">
        <Choice label="The bake it is about" value={doc.base_id} options={bakes.map((b) => [b.id, b.title] as const)} give={(base_id) => change({ base_id })} />
        <Choice
          label="It is"
          value={record.state}
          options={[
            ["planned", "planned"],
            ["live", "running"],
            ["finished", "finished"],
            ["given_up", "given up"],
          ]}
          give={(state) => set({ state })}
        />
        <Figure label="Time allowed (h)" shown={percent_figure(doc.within_h, habits)} read={typed.lasting} give={(within_h) => change({ within_h })} />
        <Figure
          label={`Each dough (${habits.weight})`}
          shown={scale_figure(doc.amount_g, habits)}
          read={(text) => typed.weight(text, habits)}
          give={(amount_g) => change({ amount_g })}
        />
        <Figure label="Jars of each dough a day" shown={plain(doc.jars, 0, habits)} read={typed.number} give={(jars) => change({ jars: Math.round(jars) })} />
        <Figure label="Height at the first mark (mm)" shown={plain(doc.jar_mm, 0, habits)} read={typed.number} give={(jar_mm) => change({ jar_mm })} />
      </div>
      <Fold title="Days" fact={doc.days.map((d) => day_words(d, habits)).join(", ") || "none yet"} open={doc.days.length === 0}>
        <Days test={test} doc={doc} change={change} />
      </Fold>
      <Doughs doc={doc} change={change} />
      <Fold title="Private remark" fact={doc.remark || "none"} seldom>
        <Field label="A remark left out of what is shown to others">
          {(attributes) => <textarea {...attributes} value={doc.remark} onInput={(e) => change({ remark: e.currentTarget.value })} />}
        </Field>
      </Fold>
    </div>
  );
}

/** What is suspected; each tick brings the dough that holds it alone. */
function Causes({ doc, change }: Pick<Props, "doc" | "change">) {
  return (
    <fieldset class="stack tight">
      <legend>What could it be? Each tick adds a dough.</legend>
      <div class="ticks">
        {causes.map(({ cause, words }) => (
          <label key={cause} class="tick-word">
            <input type="checkbox" checked={doc.causes.includes(cause)} onChange={(e) => change(with_cause(doc, cause, e.currentTarget.checked))} /> {words}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

function Doughs({ doc, change }: Pick<Props, "doc" | "change">) {
  const put = (at: number, dough: Partial<TestDocument["doughs"][number]>) => change({ doughs: doc.doughs.map((d, i) => (i === at ? { ...d, ...dough } : d)) });
  return (
    <section class="stack tight" aria-labelledby="doughs">
      <h2 id="doughs">The doughs</h2>
      {doc.doughs.map((dough, i) => (
        <details key={i} class="entry-fold">
          <summary>
            <span>
              {dough.name} <span class="quiet small">{dough.make.join(", ") || "the bake as it is"}</span>
            </span>
          </summary>
          <div class="stack tight">
            <Field label={`Dough ${i + 1}`}>
              {(attributes) => <input {...attributes} value={dough.name} onInput={(e) => put(i, { name: e.currentTarget.value })} />}
            </Field>
            <Field label="How it is made from the bake, one step a line" hint="such as  plain  or  match alcohol with neutral spirit; empty: the bake as it is">
              {(attributes) => (
                <textarea
                  {...attributes}
                  class="steps-of"
                  value={dough.make.join("\n")}
                  onInput={(e) => put(i, { make: e.currentTarget.value.split("\n").filter((line) => line.trim() !== "") })}
                />
              )}
            </Field>
            <div>
              <button type="button" aria-label={`Take it out: ${dough.name}`} onClick={() => change({ doughs: doc.doughs.filter((_, k) => k !== i) })}>
                Take it out
              </button>
            </div>
          </div>
        </details>
      ))}
      <div>
        <button type="button" onClick={() => change({ doughs: [...doc.doughs, { name: `dough ${doc.doughs.length + 1}`, make: [] }] })}>
          + Another dough
        </button>
      </div>
    </section>
  );
}

function Days({ test, doc, change }: Pick<Props, "test" | "doc" | "change">) {
  const habits = useHabits();
  const typing = useTyping(`day.${test}`, { day: "" });
  const { day } = typing.value;
  return (
    <fieldset class="stack tight">
      <legend>Every dough is baked on every day.</legend>
      <ul class="bare row">
        {doc.days.map((d) => (
          <li key={d} class="row">
            {day_words(d, habits)}
            <button type="button" class="square" aria-label={`Take ${d} out`} onClick={() => change({ days: doc.days.filter((other) => other !== d) })}>
              ✕
            </button>
          </li>
        ))}
      </ul>
      <div class="row">
        <DayField label="Another day" empty="choose a day" value={day} give={(d) => typing.set({ day: d })} />
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
