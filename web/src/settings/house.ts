// How this bakery says numbers, alike on every device: the setting "habits" of the daybook. The browser's own copy
// (settings.ts) is shown at once, and holds while the server is away or no daybook is open.
import { away, conflicting, get, put } from "../api/ask";
import { on_news } from "../api/live";
import type { SettingRecord } from "../api/types";
import { type Habits, usual } from "../say/habits";
import { change_setting, type Settings, settings, settings_from } from "./settings";

const route = "/api/settings/habits";
const unsent = "barm.settings.unsent";

let revision = 0;

const of_house = (): Habits => {
  const { warmth, weight, clock, decimal } = settings.value;
  return { warmth, weight, clock, decimal };
};

function follow(record: SettingRecord): void {
  revision = record.revision;
  if (record.deleted_at !== null) return;
  const told = settings_from(record.value);
  for (const key of Object.keys(usual) as (keyof Habits)[]) change_setting(key, told[key]);
}

/** What was chosen here goes to the daybook; what another device chose meanwhile gives way. */
async function tell(): Promise<void> {
  localStorage.setItem(unsent, "yes");
  const send = () => put<SettingRecord>(route, { value: JSON.stringify(of_house()), revision });
  try {
    const record = await send().catch((error: unknown) => {
      const other = conflicting<SettingRecord>(error);
      if (!other) throw error;
      revision = other.revision;
      return send();
    });
    revision = record.revision;
    localStorage.removeItem(unsent);
  } catch {
    // Away, or no daybook: the choice holds here and is told when the server is back.
  }
}

async function listen(): Promise<void> {
  if (localStorage.getItem(unsent) !== null) return tell();
  try {
    follow(await get<SettingRecord>(route));
  } catch {
    // Nobody has chosen yet, or nobody answers.
  }
}

export function change_habit<K extends keyof Habits>(key: K, value: Settings[K]): void {
  change_setting(key, value);
  void tell();
}

/** Follows what other devices choose. */
export function keep_house(): void {
  on_news((news) => {
    if (news.what === "everything" || (news.what === "change" && news.change.kind === "setting" && news.change.id === "habits")) void listen();
  });
  let was_away = true;
  away.subscribe((is_away) => {
    if (was_away && !is_away) void listen();
    was_away = is_away;
  });
}
