// The answer to a recipe as it stands: when it is ready, and how sure that is.
import { type Moment, now } from "../say/clock";
import { useHabits } from "../say/say";
import type { Foresight } from "../state/foresight";
import { Head } from "./head";
import { ReadyLine, Ruler, WindowWords } from "./ruler";
import { Failed, Waiting } from "./states";

export function AnswerTop({ foresight, mixed }: { foresight: Foresight; mixed: Moment | undefined }) {
  const habits = useHabits();
  const { answer, error, asking } = foresight;
  if (!answer) return error ? <Failed error={error} /> : <Waiting what={asking ? "Looking ahead…" : ""} />;
  const shown = { forecast: answer, mixed, habits, now: now() };
  return (
    <section class={error ? "stack tight old" : "stack tight"} aria-labelledby="ready" aria-live="polite">
      <h2 id="ready" class="unseen">
        Ready
      </h2>
      {error ? (
        <p class="note small" role="alert">
          This is still the answer from before your last change: see the recipe for what is wrong.
        </p>
      ) : null}
      <Head head={answer.head} mixed={mixed} habits={habits} />
      <ReadyLine {...shown} />
      <Ruler {...shown} />
      <WindowWords {...shown} only="window" />
    </section>
  );
}

