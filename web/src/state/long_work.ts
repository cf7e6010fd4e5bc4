// Work that takes seconds: begun on the server as a job, followed by its events (and by asking, when they do not come),
// and stopped when the baker says so or leaves.
import { useEffect, useRef, useState } from "preact/hooks";
import { get, post, Refusal, remove } from "../api/ask";
import { on_news } from "../api/live";
import type { Job } from "../api/types";

export interface LongWork<Answer> {
  running: boolean;
  /** The share that is done. */
  progress: number;
  answer: Answer | undefined;
  error: unknown;
  begin: (what: object) => void;
  stop: () => void;
}

const look_ms = 700;
const give_up = (id: string | undefined) => id !== undefined && void remove(`/api/jobs/${id}`).catch(() => undefined);

/** What is begun takes the place of what was begun before, whichever of them the server answers first. */
export function useLongWork<Answer>(ask: string): LongWork<Answer> {
  const [id, set_id] = useState<string | undefined>(undefined);
  const [running, set_running] = useState(false);
  const [progress, set_progress] = useState(0);
  const [answer, set_answer] = useState<Answer | undefined>(undefined);
  const [error, set_error] = useState<unknown>(undefined);
  const turn = useRef(0);
  const held = useRef<string | undefined>(undefined);
  held.current = id;

  const end = (why?: unknown) => {
    set_id(undefined);
    set_running(false);
    set_error(why);
  };

  useEffect(() => {
    if (id === undefined) return undefined;
    const look = async () => {
      try {
        const job = await get<Job>(`/api/jobs/${id}`);
        if (held.current !== id) return;
        set_progress(job.progress);
        if (job.state === "waiting" || job.state === "running") return;
        end(job.problem && job.state !== "stopped" ? new Refusal(job.problem) : undefined);
        if (!job.problem && job.answer) set_answer(job.answer as Answer);
      } catch (wrong) {
        if (held.current === id) end(wrong);
      }
    };
    const off = on_news((news) => {
      if (news.what === "job" && news.job.id === id) void look();
    });
    const timer = setInterval(() => void look(), look_ms);
    void look();
    return () => {
      off();
      clearInterval(timer);
    };
  }, [id]);

  // Nobody waits for the work of a screen that is left.
  useEffect(
    () => () => {
      turn.current += 1;
      give_up(held.current);
    },
    [],
  );

  return {
    running,
    progress,
    answer,
    error,
    begin: (what) => {
      const mine = (turn.current += 1);
      give_up(held.current);
      set_id(undefined);
      set_running(true);
      set_error(undefined);
      set_progress(0);
      post<Job>("/api/jobs", { ask, with: what }).then(
        (job) => (mine === turn.current ? set_id(job.id) : give_up(job.id)),
        (wrong: unknown) => mine === turn.current && end(wrong),
      );
    },
    stop: () => {
      turn.current += 1;
      give_up(held.current);
      end();
    },
  };
}
