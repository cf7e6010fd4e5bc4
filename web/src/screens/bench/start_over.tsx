// Wiping the sheet: asked first, since what was poured goes with the ticks, and taken back as a whole.
import { useState } from "preact/hooks";
import { post, remove, words_of } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import type { MarkRecordList } from "../../api/types";
import { Sheet } from "../../parts/sheet";
import { useHabits, weight } from "../../say/say";
import { can_undo } from "../../state/undo";
import { Refused } from "../../parts/states";

type Marks = MarkRecordList["marks"];

/** Marks out of the trash again. */
export async function put_back(marks: Marks): Promise<void> {
  for (const mark of marks) await post(`/api/marks/${mark.id}/undo`, {});
}

export function StartOver(props: {
  record: Bake;
  marks: Marks;
  ticked: number;
  poured_g: Readonly<Record<string, number>>;
  /** Wipes what only this browser has; gives back how to have it again. */
  start_over: () => () => void;
}) {
  const { record, marks, ticked } = props;
  const habits = useHabits();
  const [open, set_open] = useState(false);
  const [wrong, set_wrong] = useState("");
  const poured = Object.entries(props.poured_g);
  const running = record.state === "live" || record.state === "finished";
  const wipe = async () => {
    const gone: Marks = [];
    const undo_here = props.start_over();
    const undo = async () => {
      await put_back(gone);
      undo_here();
    };
    try {
      for (const mark of marks) {
        await remove(`/api/marks/${mark.id}`);
        gone.push(mark);
      }
      set_open(false);
      can_undo("The sheet is wiped.", undo);
    } catch (error) {
      set_wrong(words_of(error));
      can_undo("A part of the sheet is wiped.", undo);
    }
  };
  return (
    <>
      <button type="button" onClick={() => set_open(true)} disabled={ticked === 0 && poured.length === 0}>
        Start over
      </button>
      {open && (
        <Sheet title="Start over?" close={() => set_open(false)}>
          {running && <p>This dough is mixed. Without these figures it counts as the recipe has it.</p>}
          <p>
            {ticked === 1 ? "1 tick goes" : `${ticked} ticks go`} off the sheet{poured.length > 0 ? ", and what was poured:" : "."}
          </p>
          {poured.length > 0 && (
            <ul>
              {poured.map(([what, g]) => (
                <li key={what}>
                  {what} <span class="figure">{weight(g, habits)}</span>
                </li>
              ))}
            </ul>
          )}
          <Refused why={wrong} />
          <div class="row">
            <button type="button" class="main" onClick={() => void wipe()}>
              Wipe the sheet
            </button>
            <button type="button" onClick={() => set_open(false)}>
              Leave it
            </button>
          </div>
        </Sheet>
      )}
    </>
  );
}
