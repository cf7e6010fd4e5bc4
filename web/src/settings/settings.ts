// How this browser shows things. Kept in the browser; how numbers are said holds for the whole bakery (house.ts).
import { computed, effect, signal } from "@preact/signals";
import { type Habits, usual } from "../say/habits";
import { keep_text, kept_text } from "../state/store";

export type Theme = "auto" | "light" | "dark";
export interface Settings extends Habits {
  theme: Theme;
  /** A tone when a dough's window opens while the page is open. */
  sound: boolean;
}

const place = "barm.settings";
const first: Settings = { ...usual, theme: "auto", sound: true };

const allowed: { [K in keyof Settings]: readonly Settings[K][] } = {
  warmth: ["C", "F"],
  weight: ["g", "oz"],
  clock: ["24", "12"],
  decimal: [".", ","],
  dates: ["day", "month"],
  theme: ["auto", "light", "dark"],
  sound: [true, false],
};

/** What was kept, key by key; what is not one of the allowed values falls back to the usual. */
export function settings_from(text: string | null): Settings {
  let kept: Record<string, unknown> = {};
  try {
    const parsed: unknown = JSON.parse(text ?? "{}");
    if (parsed && typeof parsed === "object") kept = parsed as Record<string, unknown>;
  } catch {
    kept = {};
  }
  const out: Record<string, unknown> = { ...first };
  for (const key of Object.keys(allowed) as (keyof Settings)[]) {
    if ((allowed[key] as readonly unknown[]).includes(kept[key])) out[key] = kept[key];
  }
  return out as unknown as Settings;
}

const read = () => settings_from(kept_text(place));

export const settings = signal<Settings>(read());
export const habits = computed<Habits>(() => settings.value);

export function change_setting<K extends keyof Settings>(key: K, value: Settings[K]): void {
  settings.value = { ...settings.value, [key]: value };
  keep_text(place, JSON.stringify(settings.value));
}

/** Applies the theme to the document and follows other tabs. */
export function keep_settings(): void {
  effect(() => {
    const { theme } = settings.value;
    if (theme === "auto") delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
  });
  addEventListener("storage", (event) => {
    if (event.key === place) settings.value = read();
  });
}
