// The stages of a dough, ticked off as they are done: so today knows what is next.
import { useState } from "preact/hooks";
import { words_of } from "../api/ask";
import type { Bake } from "../api/bakes";
import type { EquipmentRecord, MarkRecordList } from "../api/types";
import { useAnswer } from "../api/use";
import { exact_moment, from_utc, now, to_utc } from "../say/clock";
import { useHabits, warmth } from "../say/say";
import { type Form, type Stage, oven, stages } from "../state/bake";
import { loads_of, useOwn } from "../state/equipment";
import { type TickChange, new_id, outbox, ticks_of } from "../state/outbox";
import { celsius_of } from "../state/warmth";
import { useOnTheWay } from "../state/waiting";
import { Refused } from "./states";

/**
 * What can be ticked off: a stage of the file by its place, or, behind them, the oven by its word. That stands in no file: `stage`
 * is its load, from the second on.
 */
interface Step {
  what: string;
  stage: number | null;
}

const at_the_oven = ["into_the_oven", "out_of_the_oven"];
const ticks = (mark: { what: string; stage?: number | null }, step: Step) =>
  at_the_oven.includes(step.what) ? mark.what === step.what && (mark.stage ?? null) === step.stage : !at_the_oven.includes(mark.what) && mark.stage === step.stage;

function steps_of(form: Form, ovens: readonly EquipmentRecord[]): (Step & { words: string; of: Stage })[] {
  const in_file = stages(form).map((of, stage) => ({ what: String(of.do), stage, words: String(of.do), of }));
  if (Object.keys(oven(form)).length === 0) return in_file;
  const loads = loads_of(form, ovens);
  const each = Array.from({ length: loads }, (_, i) =>
    at_the_oven.map((what) => ({ what, stage: i === 0 ? null : i + 1, words: what.replaceAll("_", " ") + (loads > 1 ? `, load ${i + 1} of ${loads}` : ""), of: {} })),
  );
  return [...in_file, ...each.flat()];
}

export function StageMarks({ record }: { record: Bake }) {
  const habits = useHabits();
  const held = useAnswer<MarkRecordList>(`/api/marks?owner=${record.id}&limit=500`, ["mark"]);
  const [wrong, set_wrong] = useState("");
  const all = steps_of(record.form, useOwn("oven"));
  const waiting = ticks_of(useOnTheWay(held.asked_ms), record.id);
  const in_daybook = (held.answer?.marks ?? []).filter((m) => m.what !== "weigh");
  const taken_off = new Set(waiting.filter((t) => t.taken_off).map((t) => t.mark.id));
  const on_the_way = waiting.filter((t) => !t.taken_off && !in_daybook.some((m) => m.id === t.mark.id)).map((t) => t.mark);
  const marks = [...in_daybook, ...on_the_way].filter((m) => !taken_off.has(m.id));
  if (all.length === 0) return null;
  const send = async (mark: TickChange["mark"], off: boolean) => {
    set_wrong("");
    try {
      await (await outbox()).add({ tick: { id: off ? `${mark.id}-off` : mark.id, mark, taken_off: off } });
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  const change = async ({ what, stage }: Step, done: boolean) => {
    if (done) return send({ id: new_id(), bake: record.id, what, stage, at: to_utc(now()) }, false);
    for (const { id, bake, at } of marks.filter((m) => ticks(m, { what, stage }))) await send({ id, bake, what, stage, at }, true);
    return undefined;
  };
  return (
    <fieldset class="stage-marks">
      <legend>
        <h2>Done so far</h2>
      </legend>
      {all.map((step, i) => {
        const { what, words, of: stage } = step;
        const mark = marks.find((m) => ticks(m, step));
        // A dough that stands has been mixed: nobody need tick that off.
        const mixed = what === "mix" && record.state !== "draft" && record.state !== "planned" ? record.mixed_at : null;
        const at = from_utc(mixed ?? mark?.at ?? "");
        const at_C = celsius_of(stage.temperature);
        const how = [stage.until && `until ${String(stage.until)}`, stage.for && `for ${String(stage.for)}`, stage.after && `after ${String(stage.after)}`, at_C === undefined ? stage.temperature : warmth(at_C, habits)]
          .filter(Boolean)
          .join(", ");
        return (
          <label key={i} class="entry">
            <span>
              {words} <span class="quiet small">{how}</span>
            </span>
            <span class="row">
              {at !== undefined && <span class="quiet small">{exact_moment(at, habits)}</span>}
              <input
                type="checkbox"
                checked={mixed !== null || mark !== undefined}
                disabled={mixed !== null}
                onChange={(e) => void change(step, e.currentTarget.checked)}
              />
            </span>
          </label>
        );
      })}
      <Refused why={wrong} />
    </fieldset>
  );
}
