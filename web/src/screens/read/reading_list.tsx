// All readings of a dough, each with its way into the trash.
import { useState } from "preact/hooks";
import { words_of } from "../../api/ask";
import { type Moment, exact_moment, from_utc, hours_between } from "../../say/clock";
import { lasting, plain, times, useHabits } from "../../say/say";
import type { Known } from "../../state/known_readings";
import { outbox } from "../../state/outbox";
import { can_undo, throw_away } from "../../state/undo";

export function ReadingList({ readings, mixed, start }: { readings: readonly Known[]; mixed: Moment | undefined; start: number | undefined }) {
  const habits = useHabits();
  const [said, set_said] = useState("");
  if (readings.length === 0) return null;
  const drop = async (reading: Known) => {
    const at = from_utc(reading.at);
    const what = `The reading of ${at === undefined ? reading.at : exact_moment(at, habits)}`;
    try {
      if (!reading.on_the_way) await throw_away("readings", reading.id, what);
      else {
        const { on_the_way: _, ...unsent } = reading;
        await (await outbox()).forget(reading.id);
        can_undo(`${what} is taken out.`, async () => (await outbox()).add({ reading: unsent }));
      }
      set_said("");
    } catch (error) {
      set_said(words_of(error));
    }
  };
  return (
    <details>
      <summary>All readings ({readings.length})</summary>
      <p role="status">{said}</p>
      <ul class="bare">
        {[...readings].reverse().map((r) => {
          const at = from_utc(r.at);
          return (
            <li key={r.id} class="entry">
              <span>
                {at === undefined ? r.at : exact_moment(at, habits)}
                {at !== undefined && mixed !== undefined && <span class="quiet"> · {lasting(hours_between(mixed, at))} after mixing</span>}
                {r.height_mm != null && <strong class="figure"> {plain(r.height_mm, 0, habits)} mm</strong>}
                {r.height_mm != null && start !== undefined && <span class="quiet"> {times(r.height_mm / start, habits)}</span>}
                {r.ratio != null && <strong class="figure"> {times(r.ratio, habits)}</strong>}
                {r.ph != null && <span> pH {plain(r.ph, 1, habits)}</span>}
                {r.on_the_way && <span class="quiet"> · kept here, not sent yet</span>}
                {r.remark && <span class="quiet"> · {r.remark}</span>}
              </span>
              <button type="button" class="plain" aria-label={`Throw the reading of ${at === undefined ? r.at : exact_moment(at, habits)} away`} onClick={() => void drop(r)}>
                ✕
              </button>
            </li>
          );
        })}
      </ul>
    </details>
  );
}
