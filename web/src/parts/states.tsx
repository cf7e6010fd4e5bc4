// A screen that waits, and a screen that could not.
import { words_of } from "../api/ask";

export function Waiting({ what }: { what: string }) {
  return (
    <p class="quiet" role="status">
      {what}
    </p>
  );
}

/** Why what was pressed could not be done; nothing while it could. */
export function Refused({ why }: { why: string }) {
  return why ? (
    <p class="note" role="alert">
      {why}
    </p>
  ) : null;
}

export function Failed({ error, again }: { error: unknown; again?: (() => void) | undefined }) {
  return (
    <div class="note stack tight" role="alert">
      <p>{words_of(error)}</p>
      {again && (
        <div>
          <button type="button" onClick={again}>
            Try again
          </button>
        </div>
      )}
    </div>
  );
}
