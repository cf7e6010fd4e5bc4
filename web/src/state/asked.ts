// An answer to a question that is posted: asked again when what is sent changes, or what it rests `on`; the last answer stays
// meanwhile.
import { useEffect, useState } from "preact/hooks";
import { anew, is_abort, post } from "../api/ask";

export interface Asked<Answer> {
  answer?: Answer | undefined;
  error?: unknown;
}

export function useAsked<Answer>(path: string, body: object | undefined, on = ""): Asked<Answer> {
  const [held, set_held] = useState<Asked<Answer>>({});
  const sent = JSON.stringify(body);
  useEffect(() => {
    if (sent === undefined) return undefined;
    const stop = new AbortController();
    post<Answer>(path, JSON.parse(sent), { signal: stop.signal }).then(
      (answer) => set_held({ answer }),
      (error: unknown) => {
        if (!is_abort(error)) set_held((before) => ({ ...before, error }));
      },
    );
    return () => stop.abort();
  }, [path, sent, on, anew.value]);
  return held;
}
