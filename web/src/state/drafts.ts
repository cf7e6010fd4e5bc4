// What is typed and not yet saved, of every screen. Kept at every key (store.ts), so that a screen that is left, a closed tab, a
// reload or an empty battery loses nothing; taken off when the server has it, when it is given up, and after a season.
import { type Signal, signal } from "@preact/signals";
import { useState } from "preact/hooks";
import { drop_text, keep_text, kept_keys, kept_text } from "./store";

export interface Draft<Value> {
  value: Value;
  /** The revision it started from; 0 for what is new. */
  revision: number;
  kept_at: string;
}

const beginning = "barm.draft.";
const place = (name: string) => beginning + name;

/** Nobody comes back to what lay untouched for so long. */
export const kept_days = 90;

function parsed(text: string | null): Draft<unknown> | undefined {
  if (text === null) return undefined;
  try {
    const kept = JSON.parse(text) as Draft<unknown>;
    return typeof kept === "object" && kept !== null && "value" in kept ? kept : undefined;
  } catch {
    return undefined;
  }
}

const open = new Map<string, Signal<Draft<unknown> | undefined>>();

function of(name: string): Signal<Draft<unknown> | undefined> {
  let held = open.get(name);
  if (!held) {
    held = signal(parsed(kept_text(place(name))));
    open.set(name, held);
  }
  return held;
}

/** Read in a component it follows what is typed elsewhere, in another tab too. */
export const draft = <Value>(name: string) => of(name).value as Draft<Value> | undefined;

/** Grows with every draft that comes or goes. */
export const drafts_turn = signal(0);

function put(name: string, kept: Draft<unknown>): void {
  const is_new = of(name).peek() === undefined;
  of(name).value = kept;
  keep_text(place(name), JSON.stringify(kept));
  if (is_new) drafts_turn.value += 1;
}

export function keep_draft<Value>(name: string, value: Value, revision: number): void {
  put(name, { value, revision, kept_at: new Date().toISOString() });
}

export function drop_draft(name: string): void {
  if (of(name).peek() === undefined && kept_text(place(name)) === null) return;
  of(name).value = undefined;
  drop_text(place(name));
  drafts_turn.value += 1;
}

/** Gives a draft up. Gives back how to have it again. */
export function give_up(name: string): () => void {
  const before = of(name).peek();
  drop_draft(name);
  return () => {
    if (before !== undefined) put(name, before);
  };
}

/** The names of all drafts that begin so, newest first. Read in a component it follows them. */
export function drafts(begins = ""): string[] {
  void drafts_turn.value;
  const names = kept_keys(place(begins)).map((key) => key.slice(beginning.length));
  const age = (name: string) => of(name).peek()?.kept_at ?? "";
  return names.filter((name) => of(name).peek() !== undefined).sort((a, b) => (age(a) < age(b) ? 1 : -1));
}

/** Follows other tabs, and clears what is past its age. */
export function keep_drafts(): void {
  addEventListener("storage", (event) => {
    if (!event.key?.startsWith(beginning)) return;
    of(event.key.slice(beginning.length)).value = parsed(event.newValue);
    drafts_turn.value += 1;
  });
  const oldest = new Date(Date.now() - kept_days * 86_400_000).toISOString();
  for (const name of drafts()) if ((of(name).peek()?.kept_at ?? "") < oldest) drop_draft(name);
}

export interface Typing<Value> {
  value: Value;
  /** When it was typed last; nothing while nothing is typed. */
  kept_at: string | undefined;
  /** Whether something was typed already when the screen opened. */
  typed_before: boolean;
  set: (what: Partial<Value>) => void;
  /** It is saved, or given up. */
  clear: () => void;
}

/** The fields of a form as they are typed; `first` is what stands in them before. */
export function useTyping<Value extends object>(name: string, first: Value): Typing<Value> {
  const held = draft<Partial<Value>>(name);
  const [typed_before] = useState(held !== undefined);
  return {
    value: { ...first, ...held?.value },
    kept_at: held?.kept_at,
    typed_before,
    set: (what) => keep_draft(name, { ...(of(name).peek()?.value as Partial<Value> | undefined), ...what }, 0),
    clear: () => drop_draft(name),
  };
}
