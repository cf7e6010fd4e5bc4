// Work that takes seconds: begun on the server as a job, followed by its events (and by asking, when they do not come),
// and stopped when the baker says so or leaves.
import { useEffect, useRef, useState } from "preact/hooks";
import { get, post, Refusal, remove } from "../api/ask";
import { on_news } from "../api/live";
import type { Job } from "../api/types";

export interface LongWork<Answer> {
  running: boolean;
  progress: number;
  answer: Answer | undefined;
  error: unknown;
  begin: (what: object) => void;
  stop: () => void;
}

export function useLongWork<Answer>(ask: string): LongWork<Answer> {
  const [id, set_id] = useState<string | undefined>(undefined);
  const [progress, set_progress] = useState(0);
  const [answer, set_answer] = useState<Answer | undefined>(undefined);
  const [error, set_error] = useState<unknown>(undefined);
  const held = useRef<string | undefined>(undefined);
  held.current = id;

  useEffect(() => {
    if (id === undefined) return undefined;
    const look = async () => {
      try {
        const job = await get<Job>(`/api/jobs/${id}`);
        if (held.current !== id) return;
        set_progress(job.progress);
        if (job.state === "waiting" || job.state === "running") return;
        set_id(undefined);
        if (job.problem) set_error(job.state === "stopped" ? undefined : new Refusal(job.problem));
        else if (job.answer) set_answer(job.answer as Answer);
      } catch (wrong) {
        if (held.current === id) {
          set_error(wrong);
          set_id(undefined);
        }
      }
    };
    const off = on_news((news) => {
      if (news.what === "job" && news.job.id === id) void look();
    });
    const timer = setInterval(() => void look(), 700);
    void look();
    return () => {
      off();
      clearInterval(timer);
    };
  }, [id]);

  useEffect(
    () => () => {
      if (held.current !== undefined) void remove(`/api/jobs/${held.current}`).catch(() => undefined);
    },
    [],
  );

  return {
    running: id !== undefined,
    progress,
    answer,
    error,
    begin: (what) => {
      set_error(undefined);
      set_progress(0);
      post<Job>("/api/jobs", { ask, with: what }).then((job) => set_id(job.id), set_error);
    },
    stop: () => {
      if (id !== undefined) void remove(`/api/jobs/${id}`).catch(() => undefined);
      set_id(undefined);
    },
  };
}
