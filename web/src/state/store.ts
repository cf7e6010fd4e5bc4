// The browser's own store of texts (localStorage). It is small and may refuse: what can be had again then gives way, and what
// still finds no room is kept in memory while the page is open, and said. Nothing that is typed fails because of it.
import { signal } from "@preact/signals";

/** Whether something typed is kept in memory alone, because the browser has no room for it. */
export const no_room_here = signal(false);

/** Recipes as they were read last: the server reads them again. */
export const forms = "barm.form.";

const in_memory = new Map<string, string>();

function stored(): Storage | undefined {
  try {
    return typeof localStorage === "undefined" ? undefined : localStorage;
  } catch {
    return undefined;
  }
}

function write(key: string, text: string): boolean {
  try {
    stored()?.setItem(key, text);
    return stored() !== undefined;
  } catch {
    return false;
  }
}

export function kept_text(key: string): string | null {
  return in_memory.get(key) ?? stored()?.getItem(key) ?? null;
}

/** The keys of all that is kept, from here and from before. */
export function kept_keys(beginning: string): string[] {
  const found = new Set([...in_memory.keys()].filter((key) => key.startsWith(beginning)));
  const from = stored();
  for (let i = 0; i < (from?.length ?? 0); i++) {
    const key = from?.key(i) ?? "";
    if (key.startsWith(beginning)) found.add(key);
  }
  return [...found];
}

export function keep_text(key: string, text: string): void {
  if (!write(key, text)) {
    for (const old of kept_keys(forms)) stored()?.removeItem(old);
    if (!write(key, text)) {
      stored()?.removeItem(key); // an older text must not come back in its place
      in_memory.set(key, text);
      no_room_here.value = true;
      return;
    }
  }
  in_memory.delete(key);
  no_room_here.value = in_memory.size > 0;
}

/** Keeps what can be had again: where there is no room, it is not kept. */
export function keep_if_room(key: string, text: string): void {
  write(key, text);
}

export function drop_text(key: string): void {
  in_memory.delete(key);
  stored()?.removeItem(key);
  for (const [waiting, text] of in_memory) if (write(waiting, text)) in_memory.delete(waiting);
  no_room_here.value = in_memory.size > 0;
}
