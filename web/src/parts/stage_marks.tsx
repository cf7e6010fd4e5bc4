// The stages of a dough, ticked off as they are done: so today knows what is next.
import { useState } from "preact/hooks";
import { post, remove, words_of } from "../api/ask";
import type { Bake } from "../api/bakes";
import type { MarkRecordList } from "../api/types";
import { useAnswer } from "../api/use";
import { exact_moment, from_utc, now, to_utc } from "../say/clock";
import { useHabits } from "../say/say";
import { stages } from "../state/bake";
import { new_id } from "../state/outbox";

export function StageMarks({ record }: { record: Bake }) {
  const habits = useHabits();
  const held = useAnswer<MarkRecordList>(`/api/marks?owner=${record.id}&limit=500`, ["mark"]);
  const [wrong, set_wrong] = useState("");
  const all = stages(record.form);
  const marks = (held.answer?.marks ?? []).filter((m) => m.what !== "weigh" && m.stage !== null);
  if (all.length === 0) return null;
  const attempt = (work: Promise<unknown>) => {
    set_wrong("");
    work.then(held.again, (error: unknown) => set_wrong(words_of(error)));
  };
  return (
    <fieldset class="stage-marks">
      <legend>
        <h2>Done so far</h2>
      </legend>
      {all.map((stage, i) => {
        const mark = marks.find((m) => m.stage === i);
        const at = mark && from_utc(mark.at);
        const how = [stage.until && `until ${String(stage.until)}`, stage.for && `for ${String(stage.for)}`, stage.after && `after ${String(stage.after)}`, stage.temperature]
          .filter(Boolean)
          .join(", ");
        return (
          <label key={i} class="entry">
            <span>
              {String(stage.do)} <span class="quiet small">{how}</span>
            </span>
            <span class="row">
              {at !== undefined && <span class="quiet small">{exact_moment(at, habits)}</span>}
              <input
                type="checkbox"
                checked={mark !== undefined}
                onChange={(e) =>
                  attempt(
                    e.currentTarget.checked
                      ? post("/api/marks", { id: new_id(), bake: record.id, what: String(stage.do), stage: i, at: to_utc(now()) })
                      : mark
                        ? remove(`/api/marks/${mark.id}`)
                        : Promise.resolve(),
                  )
                }
              />
            </span>
          </label>
        );
      })}
      {wrong && (
        <p class="note" role="alert">
          {wrong}
        </p>
      )}
    </fieldset>
  );
}
