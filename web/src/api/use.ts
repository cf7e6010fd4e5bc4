// Answers in a screen: asked for when it opens, asked again when the server says that something of that kind changed.
// The last answer stays on the screen meanwhile.
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { Refusal, anew, get, is_abort } from "./ask";
import { on_news } from "./live";

export interface Held<Answer> {
  answer?: Answer;
  /** When the answer was asked for, in the page's own milliseconds. */
  asked_ms: number;
  error?: unknown;
  asking: boolean;
  again: () => void;
}

/** A server that has no place now has one soon. */
const ask_again_ms = 2000;

interface Remembered<Answer> {
  answer?: Answer;
  asked_ms: number;
}

const remembered = new Map<string, Remembered<unknown>>();

/** GET `path`; nothing while it is undefined. `kinds` are the records whose change makes the answer old. */
export function useAnswer<Answer>(path: string | undefined, kinds: readonly string[] = []): Held<Answer> {
  const [, redraw] = useState(0);
  const [turn, set_turn] = useState(0);
  const state = useRef<Remembered<Answer> & { path?: string | undefined; error?: unknown; asking: boolean }>({ asked_ms: 0, asking: false });
  if (state.current.path !== path) {
    const kept = path === undefined ? undefined : (remembered.get(path) as Remembered<Answer> | undefined);
    state.current = { path, asked_ms: 0, asking: path !== undefined, ...kept };
  }
  // Before the next picture, so that the answer is on its way while it is drawn.
  useLayoutEffect(() => {
    if (path === undefined) return undefined;
    const stop = new AbortController();
    let later: ReturnType<typeof setTimeout> | undefined;
    state.current.asking = true;
    const asked_ms = performance.now();
    get<Answer>(path, { signal: stop.signal })
      .then((answer) => {
        remembered.set(path, { answer, asked_ms });
        state.current = { path, answer, asked_ms, asking: false };
        redraw((n) => n + 1);
      })
      .catch((error: unknown) => {
        if (is_abort(error)) return;
        state.current = { ...state.current, error, asking: false };
        redraw((n) => n + 1);
        if (error instanceof Refusal && error.problem.code === "too_busy") later = setTimeout(() => set_turn((n) => n + 1), ask_again_ms);
      });
    return () => {
      stop.abort();
      clearTimeout(later);
    };
  }, [path, turn, anew.value]);
  useEffect(
    () =>
      on_news((news) => {
        if (news.what === "change" && kinds.includes(news.change.kind)) set_turn((n) => n + 1);
      }),
    [kinds.join(" ")],
  );
  const { answer, asked_ms, error, asking } = state.current;
  return { ...(answer === undefined ? {} : { answer }), asked_ms, error, asking, again: () => set_turn((n) => n + 1) };
}
