// Asking the server. What it refuses comes as a `Refusal` with the words of its problem (RFC 9457); when it cannot be
// reached at all, as `Away`.
import { signal } from "@preact/signals";
import { zone_here } from "../say/clock";
import { heard_date } from "../state/clock";
import { forget_ahead, keep_ahead, taken_ahead } from "./ahead";
import { type Told, cannot_save, hear, outdated, page_header, page_version, zone_header, version_header } from "./told";
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
    super("The server does not answer. What you typed is kept in this browser: try again when it is back.");
  }
}

/** Whether the last request found nobody. */
export const away = signal(false);
/** Whether this device still has to give the pairing key. */
export const unpaired = signal(false);
/** Grows when all that was answered may be old: the server is back, this device was let in, the daybook is another. */
export const anew = signal(0);
export function ask_all_anew(): void {
  forget_ahead();
  anew.value += 1;
}

let pairings = 0;
/** The key was right: what is still refused was asked before. */
export function let_in(): void {
  pairings += 1;
  unpaired.value = false;
  ask_all_anew();
}

export type Method = "GET" | "POST" | "PUT" | "DELETE";

export interface Asking {
  signal?: AbortSignal;
}

let under_way = 0;
let last_ms = 0;
const rest_ms = 400;
const most_ms = 2500;

/** Once nothing was asked for a moment, so that the screen has its first answers; at most after a few seconds. */
export async function at_rest(): Promise<void> {
  const latest_ms = performance.now() + most_ms;
  do {
    await new Promise((later) => setTimeout(later, rest_ms / 2));
  } while (performance.now() < latest_ms && (under_way > 0 || performance.now() - last_ms < rest_ms));
}

/** Errors: Refusal, Away; an AbortError when `signal` says so. */
export async function ask<Answer>(method: Method, path: string, body?: unknown, how: Asking = {}): Promise<Answer> {
  const ahead = taken_ahead(method, path, body);
  const asked = { at_ms: ahead?.at_ms ?? Date.now(), pairings };
  let response: Response;
  under_way += 1;
  try {
    response = await (ahead?.response ?? send(method, path, body, how));
    how.signal?.throwIfAborted();
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    away.value = true;
    throw new Away();
  } finally {
    under_way -= 1;
    last_ms = performance.now();
  }
  // What the service worker kept from before is an answer, but the server is not there.
  const kept = response.headers.has("X-Barm-Kept");
  if (!kept) heard(response, asked.at_ms);
  const was_away = away.value;
  away.value = kept;
  if (was_away && !kept) ask_all_anew();
  if (!response.ok) throw new Refusal(await problem_of(response, asked.pairings));
  if (method !== "GET" && is_saving(path)) cannot_save.value = undefined;
  if (response.status === 204) return undefined as Answer;
  return (await response.json()) as Answer;
}

const send = (method: Method, path: string, body?: unknown, how: Asking = {}) =>
  fetch(path, { method, credentials: "same-origin", signal: how.signal ?? null, ...sent(method, body) });

/** Asks what a screen will ask in a moment. */
export const ask_ahead = (method: Method, path: string, body?: unknown) => keep_ahead(method, path, body, send(method, path, body));

function sent(method: Method, body: unknown): RequestInit {
  const headers: Record<string, string> = { [zone_header]: zone_here(), ...(method === "GET" ? {} : { [page_header]: page_version }) };
  if (body === undefined) return { headers };
  if (body instanceof Blob) return { body, headers: { ...headers, "Content-Type": body.type } };
  return { body: JSON.stringify(body), headers: { ...headers, "Content-Type": "application/json" } };
}

function heard(response: Response, asked_ms: number): void {
  heard_date(response.headers.get("Date"), asked_ms, Date.now());
  const version = response.headers.get(version_header);
  if (version !== null) hear({ version });
}

/** Kinds of records of the daybook: to write one of them is to save. Questions are posted too. */
const kinds = ["bakes", "cultures", "feedings", "bottles", "readings", "marks", "photos", "loaves", "scales", "remarks", "settings", "test-bakes", "test-members", "equipment"];
const is_saving = (path: string) => kinds.includes(path.split(/[/?]/)[2] ?? "");

async function problem_of(response: Response, pairings_then: number): Promise<Problem> {
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
  if (problem.code === "not_paired" && pairings_then === pairings) unpaired.value = true;
  if (problem.code === "stale_page") outdated.value = true;
  // What was asked before a copy was put back is asked again.
  if (hear(problem as Problem & Told, problem.detail)) ask_all_anew();
  return problem;
}

export const get = <Answer>(path: string, how?: Asking) => ask<Answer>("GET", path, undefined, how);
export const post = <Answer>(path: string, body: unknown, how?: Asking) => ask<Answer>("POST", path, body, how);
export const put = <Answer>(path: string, body: unknown, how?: Asking) => ask<Answer>("PUT", path, body, how);
export const remove = (path: string, how?: Asking) => ask<undefined>("DELETE", path, undefined, how);

/** Where a refusal points, as it is said: "line 2" for bake:2:23, "ripe, g" for ripe_g; nothing for an option of the terminal. */
export function place_in_words(where: string): string {
  const line = /:(\d+)(?::\d+)?$/.exec(where);
  if (line) return `line ${line[1]}`;
  if (where.startsWith("--")) return "";
  return where.replace(/_(g|mL|h|mm|C|min)$/, (_, unit: string) => `, ${unit === "C" ? "°C" : unit}`).replaceAll("_", " ");
}

/** What went wrong, in one sentence for the screen. */
export function words_of(error: unknown): string {
  const where = error instanceof Refusal ? place_in_words(error.problem.where ?? "") : "";
  if (error instanceof Refusal && where) return `${where}: ${error.problem.detail}`;
  return error instanceof Error ? error.message : String(error);
}

export const is_abort = (error: unknown) => error instanceof DOMException && error.name === "AbortError";

/** The record as it stands now, when a change came too late: somebody was faster, or a copy was put back. */
export function conflicting<Record>(error: unknown): Record | undefined {
  if (!(error instanceof Refusal) || !["conflict", "restored"].includes(error.problem.code)) return undefined;
  return error.problem.current as Record | undefined;
}

/** Whether it came too late because a copy of the daybook was put back. */
export const after_restore = (error: unknown) => error instanceof Refusal && error.problem.code === "restored";
