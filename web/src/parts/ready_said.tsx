// What the recipe says at its top, in two lines for the sheets that have no room for the ruler: what to do next, when it is ready.
import { type Bake, mixed_of } from "../api/bakes";
import { now } from "../say/clock";
import { useHabits } from "../say/say";
import { useForesight } from "../state/foresight";
import { useReadOfIt } from "../state/known_readings";
import { Head } from "./head";
import { ready_line } from "./ruler";

/** When it is ready, as its recipe says; nothing of a bake that is over, nor before it is known. */
export function useReadySaid(record: Bake) {
  const habits = useHabits();
  const mixed = mixed_of(record, record.form);
  const over = record.state === "finished" || record.state === "given_up";
  const { answer } = useForesight(over ? undefined : record.form, record, useReadOfIt(record, mixed));
  return over || !answer ? undefined : { head: answer.head, mixed, line: ready_line({ forecast: answer, mixed, habits, now: now() }) };
}

export function ReadySaid({ record }: { record: Bake }) {
  const habits = useHabits();
  const said = useReadySaid(record);
  if (record.state === "finished" || record.state === "given_up") return null;
  // Its two lines keep their place: nothing moves under the hand when they come.
  if (!said)
    return (
      <div class="stack tight" aria-hidden="true">
        <p>&nbsp;</p>
        <p class="quiet small">&nbsp;</p>
      </div>
    );
  return (
    <div class="stack tight" data-testid="ready-said" aria-live="polite">
      <Head head={said.head} mixed={said.mixed} habits={habits} />
      <p class="quiet small">{said.line}</p>
    </div>
  );
}
