// How far a piece of work is, and how to stop it.
import type { LongWork } from "../state/long_work";
import { Failed } from "./states";

export function Work<Answer>(props: { work: LongWork<Answer>; words: string; begin: () => void; ready?: boolean }) {
  const { work } = props;
  return (
    <div class="stack tight">
      {work.running ? (
        <div class="row" role="status">
          <progress max={1} value={work.progress} aria-label={props.words} />
          <button type="button" onClick={work.stop}>
            Stop
          </button>
        </div>
      ) : (
        <div>
          <button type="button" class="main" disabled={props.ready === false} onClick={props.begin}>
            {props.words}
          </button>
        </div>
      )}
      {work.error ? <Failed error={work.error} /> : null}
    </div>
  );
}
