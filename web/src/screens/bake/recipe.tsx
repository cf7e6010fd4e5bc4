// The recipe to change: bowl and size, warmth, hour of mixing; each line opens on a tap.
import { useState } from "preact/hooks";
import { type Bake, mixed_of } from "../../api/bakes";
import { iso } from "../../say/clock";
import type { Bowl, Problem } from "../../api/types";
import { Figure } from "../../parts/field";
import { WhenField } from "../../parts/when_field";
import { warmth_unit, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import type { Habits } from "../../say/habits";
import { bulk_at, lines, set, set_stage, stages } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { type Ingredients, drinks_in } from "../../state/drinks";
import { made_of } from "../../state/prepared";
import { celsius_of, warmth_text } from "../../state/warmth";
import { plain } from "../../say/say";
import { BowlLine } from "./bowl_line";
import { AddLine } from "./add_line";
import { Bottle } from "./bottles";
import { LevainFields } from "./levain";
import { SizeLine } from "./size";
import { problem_at } from "./problem";

/** Lines that open on a tap: the dough as a whole, then each in the bowl. */
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
  const mixed = mixed_of(props.record, form);
  const [open, set_open] = useState<string | undefined>(undefined);
  const opens = (name: string) => ({ open: open === name, set_open: (is: boolean) => set_open(is ? name : undefined) });
  const all = lines(form);
  const flours = new Set(larder.filter((i) => i.group === "flour").map((i) => i.name));
  const drinks = new Set(drinks_in(form, larder));
  const behind = new Map(all.map(({ name }) => [name, name === "levain" ? ["levain"] : drinks.has(name) ? ["bottle", made_of(form, name)] : ["bowl", name]]));
  const placed = [...all.map((l) => ["bowl", l.name]), ...behind.values(), ["stage"], ["pieces"], ["piece"], ["flour"], ["mixed"]].some(
    (path) => problem_at(problem, ...path),
  );
  return (
    <>
      <h2 class="unseen">The recipe</h2>
      {problem && !placed && (
        <p class="note" role="alert">
          {problem.detail}
        </p>
      )}
      <ul class="bare bowl-lines" aria-label="The bowl" data-testid="bowl">
        {all.map((line) => (
          <li key={line.name}>
            <BowlLine
              line={line}
              flours={flours}
              form={form}
              change={change}
              bowl={bowl}
              wrong={problem_at(problem, "bowl", line.name)}
              amiss={problem_at(problem, ...(behind.get(line.name) ?? [])) !== undefined}
              {...opens(line.name)}
            >
              {line.name === "levain" && <LevainFields {...props} />}
              {drinks.has(line.name) && <Bottle draft={draft} name={made_of(form, line.name)} problem={problem} />}
            </BowlLine>
          </li>
        ))}
        <li>
          <SizeLine draft={draft} bowl={bowl} problem={problem} {...opens("the dough")} />
        </li>
      </ul>
      <AddLine
        form={form}
        larder={larder}
        add={(next, name) => {
          set_open(name);
          change(next);
        }}
      />
      <Warmth {...props} habits={habits} />
      <WhenField
        label="Mixed at"
        empty="not said"
        value={mixed === undefined ? "" : iso(mixed)}
        give={(at) => change(set(form, "mixed", at === "" ? undefined : `${at}:00`))}
        wrong={problem_at(problem, "mixed")}
      />
    </>
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
