// Asking the server. What it refuses comes as a `Refusal` with the words of its problem (RFC 9457); when it cannot be
// reached at all, as `Away`.
import { signal } from "@preact/signals";
import type { Problem } from "./types";

export class Refusal extends Error {
  override name = "Refusal";
  constructor(readonly problem: Problem) {
    super(problem.detail);
  }
}

export class Away extends Error {
  override name = "Away";
  constructor() {
    super("The server does not answer. What you type stays in this browser and is sent when it is back.");
  }
}

/** Whether the last request found nobody. */
export const away = signal(false);
/** Whether this device still has to give the pairing key. */
export const unpaired = signal(false);

export type Method = "GET" | "POST" | "PUT" | "DELETE";

export interface Asking {
  signal?: AbortSignal;
}

/** Errors: Refusal, Away; an AbortError when `signal` says so. */
export async function ask<Answer>(method: Method, path: string, body?: unknown, how: Asking = {}): Promise<Answer> {
  let response: Response;
  try {
    response = await fetch(path, {
      method,
      credentials: "same-origin",
      signal: how.signal ?? null,
      ...(body instanceof Blob
        ? { body, headers: { "Content-Type": body.type } }
        : body !== undefined
          ? { body: JSON.stringify(body), headers: { "Content-Type": "application/json" } }
          : {}),
    });
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    away.value = true;
    throw new Away();
  }
  // What the service worker kept from before is an answer, but the server is not there.
  away.value = response.headers.has("X-Barm-Kept");
  if (!response.ok) throw new Refusal(await problem_of(response));
  if (response.status === 204) return undefined as Answer;
  return (await response.json()) as Answer;
}

async function problem_of(response: Response): Promise<Problem> {
  let problem: Problem;
  try {
    problem = (await response.json()) as Problem;
  } catch {
    problem = {
      type: "urn:barm:problem:our_fault",
      title: response.statusText,
      status: response.status,
      code: "our_fault",
      detail: `The server answered ${response.status} without a reason.`,
    };
  }
  if (problem.code === "not_paired") unpaired.value = true;
  return problem;
}

export const get = <Answer>(path: string, how?: Asking) => ask<Answer>("GET", path, undefined, how);
export const post = <Answer>(path: string, body: unknown, how?: Asking) => ask<Answer>("POST", path, body, how);
export const put = <Answer>(path: string, body: unknown, how?: Asking) => ask<Answer>("PUT", path, body, how);
export const remove = (path: string, how?: Asking) => ask<undefined>("DELETE", path, undefined, how);

/** What went wrong, in one sentence for the screen. */
export function words_of(error: unknown): string {
  if (error instanceof Refusal && error.problem.where) return `${error.problem.where}: ${error.problem.detail}`;
  return error instanceof Error ? error.message : String(error);
}

export const is_abort = (error: unknown) => error instanceof DOMException && error.name === "AbortError";

/** The record as it stands now, when a change came too late. */
export function conflicting<Record>(error: unknown): Record | undefined {
  if (!(error instanceof Refusal) || error.problem.code !== "conflict") return undefined;
  return error.problem.current as Record | undefined;
}
