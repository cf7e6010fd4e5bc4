// How far a piece of work is, and how to stop it.
import type { LongWork } from "../state/long_work";
import { Failed } from "./states";

export function Progress<Answer>({ work, what }: { work: LongWork<Answer>; what: string }) {
  return (
    <div class="row" role="status">
      <span class="quiet">{what}</span>
      <progress max={1} value={work.progress} aria-label={what} />
      <button type="button" onClick={work.stop}>
        Stop
      </button>
    </div>
  );
}

export function Work<Answer>(props: { work: LongWork<Answer>; words: string; begin: () => void; ready?: boolean; aside?: boolean }) {
  const { work } = props;
  return (
    <div class="stack tight">
      {work.running ? (
        <Progress work={work} what={props.words} />
      ) : (
        <div>
          <button type="button" class={props.aside ? "" : "main"} disabled={props.ready === false} onClick={props.begin}>
            {props.words}
          </button>
        </div>
      )}
      {work.error ? <Failed error={work.error} /> : null}
    </div>
  );
}
