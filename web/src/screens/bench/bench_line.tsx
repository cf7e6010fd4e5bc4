// One line of the sheet: its weight to read from a step away, its tick, and what was really poured.
import { useState } from "preact/hooks";
import type { Bowl } from "../../api/types";
import { Figure } from "../../parts/field";
import type { Habits } from "../../say/habits";
import { scale_figure, volume } from "../../say/say";
import * as typed from "../../say/typed";

export function BenchLine(props: {
  line: Bowl["lines"][number];
  habits: Habits;
  done: boolean;
  tick: (done: boolean) => void;
  poured: number | undefined;
  pour: (g: number | undefined) => void;
}) {
  const { line, habits, done, poured } = props;
  const [open, set_open] = useState(poured !== undefined);
  return (
    <div class="bench-line">
      <label class="tick">
        <input type="checkbox" checked={done} onChange={(e) => props.tick(e.currentTarget.checked)} />
        <span class="big">
          {scale_figure(line.plan_g, habits)}
          <small> {habits.weight}</small>
        </span>
        <span class="what">
          {line.ingredient}
          {line.volume_mL > 0 && line.actual_g > 0 && <span class="quiet small"> about {volume((line.volume_mL * line.plan_g) / line.actual_g, habits).replace(" ", "\u00a0")}</span>}
        </span>
      </label>
      {open ? (
        <div class="poured no-print">
          <Figure<number | undefined>
            label={`Really poured of ${line.ingredient} (${habits.weight})`}
            shown={poured === undefined ? "" : scale_figure(poured, habits)}
            read={typed.or_empty((text) => typed.weight(text, habits))}
            give={(g) => props.pour(g)}
          />
          <button
            type="button"
            class="plain"
            onClick={() => {
              props.pour(undefined);
              set_open(false);
            }}
          >
            As planned
          </button>
        </div>
      ) : (
        <button type="button" class="plain other no-print" onClick={() => set_open(true)} aria-label={`Weighed different: ${line.ingredient}`}>
          weighed different
        </button>
      )}
      <span class="blank only-print" aria-hidden="true" />
    </div>
  );
}
