// The answer to a recipe as it stands: when it is ready, and how sure that is.
import type { Bake } from "../api/bakes";
import { type Moment, now } from "../say/clock";
import { useHabits } from "../say/say";
import type { Foresight } from "../state/foresight";
import { Head } from "./head";
import { ReadyLine, Ruler, WindowWords } from "./ruler";
import { Failed, Waiting } from "./states";

const over = { finished: "This bake is finished.", given_up: "This bake was given up." };

/** Of a bake that is over nothing is foretold but how it would go again, in hours. */
export function AnswerTop({ foresight, mixed: was_mixed, state }: { foresight: Foresight; mixed: Moment | undefined; state?: Bake["state"] }) {
  const ended = state === "finished" || state === "given_up" ? over[state] : undefined;
  const mixed = ended ? undefined : was_mixed;
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
      {ended ? <p>{ended} Baked again, it would go like this:</p> : <Head head={answer.head} mixed={mixed} habits={habits} />}
      <ReadyLine {...shown} />
      <Ruler {...shown} />
      <div class="row">
        <WindowWords {...shown} only="window" />
        {foresight.readings > 0 && <span class="quiet small">{foresight.readings === 1 ? "as its reading has it" : `as its ${foresight.readings} readings have it`}</span>}
      </div>
    </section>
  );
}

