// The recipe to change: pieces, bowl, warmth, and below them what is changed less often.
import { useState } from "preact/hooks";
import type { Bake } from "../../api/bakes";
import type { Bowl, LarderListAnswer, Problem } from "../../api/types";
import { Field, Figure } from "../../parts/field";
import { warmth_unit, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import type { Habits } from "../../say/habits";
import { bulk_at, lines, set, set_stage, stages, text } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { celsius_of, warmth_text } from "../../state/warmth";
import { plain } from "../../say/say";
import { BowlLine } from "./bowl_line";
import { AddLine } from "./add_line";
import { Bottles } from "./bottles";
import { LevainFields } from "./levain";
import { StageFields } from "./stages";
import { SwapAndMatch } from "./swap_match";
import { AsFile } from "./as_file";
import { problem_at } from "./problem";

export type Ingredients = LarderListAnswer["ingredients"];

export function Recipe(props: {
  draft: BakeDraft;
  larder: Ingredients;
  bowl: Bowl | undefined;
  problem: Problem | undefined;
  record: Bake;
}) {
  const { draft, larder, bowl, problem } = props;
  const { form, change } = draft;
  const habits = useHabits();
  const [newest, set_newest] = useState<string | undefined>(undefined);
  const all = lines(form);
  const placed = [...all.map((l) => ["bowl", l.name]), ["levain"], ["stage"], ["bottle"], ["pieces"], ["piece"], ["mixed"]].some(
    (path) => problem_at(problem, ...path),
  );
  return (
    <>
      <h2>The recipe</h2>
      {problem && !placed && (
        <p class="note" role="alert">
          {problem.detail}
        </p>
      )}
      <Field label="Name">
        {(attributes) => (
          <input {...attributes} value={text(form, "name")} maxLength={200} onInput={(e) => change(set(form, "name", e.currentTarget.value))} />
        )}
      </Field>
      <div class="pair">
        <Figure
          label="Pieces"
          shown={text(form, "pieces")}
          read={whole_number}
          give={(n) => change(set(form, "pieces", n))}
          wrong={problem_at(problem, "pieces")}
          input={{ inputMode: "numeric" }}
        />
        {form.baked === undefined ? (
          <PieceField label="A piece of dough" at="piece" {...props} />
        ) : (
          <PieceField label="A baked loaf" at="baked" {...props} />
        )}
        <Field label="Mixed at" wrong={problem_at(problem, "mixed")}>
          {(attributes) => (
            <input
              {...attributes}
              type="datetime-local"
              value={text(form, "mixed").slice(0, 16)}
              onInput={(e) => change(set(form, "mixed", e.currentTarget.value === "" ? undefined : `${e.currentTarget.value}:00`))}
            />
          )}
        </Field>
      </div>
      <Warmth {...props} habits={habits} />
      <SwapAndMatch {...props} />
      <ul class="bare bowl-lines" aria-label="The bowl">
        {all.map((line) => (
          <li key={line.name}>
            <BowlLine
              line={line}
              form={form}
              change={change}
              bowl={bowl}
              wrong={problem_at(problem, "bowl", line.name)}
              focus={newest === line.name}
            />
          </li>
        ))}
      </ul>
      <AddLine
        form={form}
        larder={larder}
        add={(next, name) => {
          set_newest(name);
          change(next);
        }}
      />
      <Bottles {...props} />
      <LevainFields {...props} />
      <StageFields {...props} />
      <AsFile form={form} />
    </>
  );
}

function whole_number(typed_text: string): typed.Typed<number> {
  const read = typed.number(typed_text);
  if (!read.ok) return read;
  return Number.isInteger(read.value) && read.value > 0 ? read : { ok: false, why: "Pieces are counted: 1, 2, 3." };
}

function PieceField(props: { label: string; at: "piece" | "baked"; draft: BakeDraft; problem: Problem | undefined }) {
  const { form, change } = props.draft;
  const habits = useHabits();
  return (
    <Figure
      label={props.label}
      shown={text(form, props.at)}
      read={(t) => {
        const read = typed.weight(t, habits);
        return read.ok ? { ok: true, value: t.trim() } : read;
      }}
      give={(t) => change(set(form, props.at, /[a-z]\s*$/i.test(t) ? t : `${t.replace(",", ".")} ${habits.weight}`))}
      wrong={problem_at(props.problem, props.at)}
      input={{ inputMode: "text" }}
    />
  );
}

/** How warm the bulk stands: slide or type. */
function Warmth({ draft, habits, problem }: { draft: BakeDraft; habits: Habits; problem: Problem | undefined }) {
  const { form, change } = draft;
  const at = bulk_at(form);
  const stage = stages(form)[at];
  if (!stage) return null;
  const now = celsius_of(stage.temperature) ?? 24;
  const give = (value: number) => change(set_stage(form, at, { ...stage, temperature: warmth_text(value, habits) }));
  const shown = habits.warmth === "F" ? now * 1.8 + 32 : now;
  const to_C = (value: number) => (habits.warmth === "F" ? (value - 32) / 1.8 : value);
  const [low, high, step] = habits.warmth === "F" ? [50, 95, 1] : [10, 35, 0.5];
  return (
    <div class="warmth">
      <Figure
        label={`Warmth of the bulk (${warmth_unit(habits)})`}
        shown={plain(shown, Number.isInteger(Math.round(shown * 10) / 10) ? 0 : 1, habits)}
        read={(t) => typed.warmth(t, habits)}
        give={give}
        wrong={problem_at(problem, "stage", String(at), "temperature")}
      />
      <input
        type="range"
        aria-label={`Slide the warmth of the bulk, in ${warmth_unit(habits)}`}
        min={low}
        max={high}
        step={step}
        value={shown}
        onInput={(e) => give(to_C(Number(e.currentTarget.value)))}
      />
    </div>
  );
}
