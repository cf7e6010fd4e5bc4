// Long work: begun, followed by the news (and asked for, should the news fail), stopped on demand.
import { useEffect, useRef, useState } from "preact/hooks";
import { Refusal, get, post, remove } from "./ask";
import { on_news } from "./live";
import type { Job, JobRequest } from "./types";

export interface LongWork<Answer> {
  running: boolean;
  /** The share that is done. */
  progress: number;
  answer: Answer | undefined;
  error: unknown;
  begin: (what: JobRequest) => void;
  stop: () => void;
}

const ask_anew_ms = 1000;

export function useLongWork<Answer>(): LongWork<Answer> {
  const [job, set_job] = useState<Job | undefined>(undefined);
  const [error, set_error] = useState<unknown>(undefined);
  const [begun, set_begun] = useState(false);
  const id = useRef<string | undefined>(undefined);
  const running = begun && (job === undefined || job.state === "waiting" || job.state === "running");

  const see = (seen: Job) => {
    if (seen.id !== id.current) return;
    // An event says how far it is; only the route holds the answer.
    if (seen.state === "done" && seen.answer === undefined) {
      get<Job>(`/api/jobs/${seen.id}`).then(set_job, set_error);
      return;
    }
    set_job(seen);
    if (seen.state === "failed" && seen.problem) set_error(new Refusal(seen.problem));
  };

  useEffect(() => on_news((news) => news.what === "job" && see(news.job)), []);
  useEffect(() => {
    if (!running || job === undefined) return undefined;
    const timer = setInterval(() => get<Job>(`/api/jobs/${job.id}`).then(see, set_error), ask_anew_ms);
    return () => clearInterval(timer);
  }, [running, job?.id]);
  // Nobody waits for the work of a screen that is left.
  useEffect(() => () => void (id.current && remove(`/api/jobs/${id.current}`).catch(() => undefined)), []);

  return {
    running,
    progress: job?.progress ?? 0,
    answer: job?.state === "done" ? (job.answer as Answer | undefined) : undefined,
    error,
    begin: (what) => {
      set_error(undefined);
      set_job(undefined);
      set_begun(true);
      post<Job>("/api/jobs", what).then(
        (made) => {
          id.current = made.id;
          see(made);
        },
        (trouble: unknown) => {
          set_begun(false);
          set_error(trouble);
        },
      );
    },
    stop: () => {
      set_begun(false);
      if (id.current) void remove(`/api/jobs/${id.current}`).catch(() => undefined);
    },
  };
}
