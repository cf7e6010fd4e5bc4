// What is typed and not yet saved. Kept in localStorage at every key, so that a closed tab, a reload or an empty battery
// loses nothing; taken off when the server has it.

export interface Draft<Value> {
  value: Value;
  /** The revision it started from; 0 for what is new. */
  revision: number;
  kept_at: string;
}

const place = (name: string) => `barm.draft.${name}`;

export function draft<Value>(name: string): Draft<Value> | undefined {
  const text = localStorage.getItem(place(name));
  if (text === null) return undefined;
  try {
    const kept = JSON.parse(text) as Draft<Value>;
    return typeof kept === "object" && kept !== null && "value" in kept ? kept : undefined;
  } catch {
    return undefined;
  }
}

export function keep_draft<Value>(name: string, value: Value, revision: number): void {
  localStorage.setItem(place(name), JSON.stringify({ value, revision, kept_at: new Date().toISOString() }));
}

export const drop_draft = (name: string) => localStorage.removeItem(place(name));

/** The names of all drafts that begin so. */
export function drafts(beginning: string): string[] {
  const found: string[] = [];
  for (let i = 0; i < localStorage.length; i++) {
    const key = localStorage.key(i) ?? "";
    if (key.startsWith(place(beginning))) found.push(key.slice(place("").length));
  }
  return found;
}
