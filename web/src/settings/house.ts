// How this bakery says numbers, alike on every device: the setting "habits" of the daybook. The browser's own copy
// (settings.ts) is shown at once, and holds while the server is away or no daybook is open.
import { anew, conflicting, get, put } from "../api/ask";
import { on_news } from "../api/live";
import { epoch } from "../api/told";
import type { SettingRecord } from "../api/types";
import { type Habits, usual } from "../say/habits";
import { drop_text, keep_text, kept_text } from "../state/store";
import { change_setting, type Settings, settings_from } from "./settings";

const route = "/api/settings/habits";
const place = "barm.settings.unsent";

let house: Habits = usual;
let revision = 0;
let of_daybook = epoch.peek();

/** What was chosen here and is not in the daybook yet, key by key. */
function unsent(): Partial<Habits> {
  try {
    const kept: unknown = JSON.parse(kept_text(place) ?? "{}");
    return typeof kept === "object" && kept !== null ? (kept as Partial<Habits>) : {};
  } catch {
    return {};
  }
}

function keep_unsent(chosen: Partial<Habits>): void {
  if (Object.keys(chosen).length === 0) drop_text(place);
  else keep_text(place, JSON.stringify(chosen));
}

function follow(record: SettingRecord): void {
  // An answer that was overtaken; in another daybook revisions begin anew.
  if (record.revision < revision && of_daybook === epoch.peek()) return;
  of_daybook = epoch.peek();
  revision = record.revision;
  const { warmth, weight, clock, decimal, dates } = settings_from(record.deleted_at === null ? record.value : null);
  house = { warmth, weight, clock, decimal, dates };
  const shown = { ...house, ...unsent() };
  if (record.deleted_at === null) for (const key of Object.keys(usual) as (keyof Habits)[]) change_setting(key, shown[key]);
}

/** Sends what was chosen here; what another device chose meanwhile holds beside it. */
async function send_all(): Promise<void> {
  for (let chosen = unsent(); Object.keys(chosen).length > 0; chosen = unsent()) {
    try {
      follow(await put<SettingRecord>(route, { value: JSON.stringify({ ...house, ...chosen }), revision }));
    } catch (error) {
      const other = conflicting<SettingRecord>(error);
      if (!other) return; // Away, or no daybook: the choice holds here and is told when the server is back.
      revision = 0;
      follow(other);
      continue;
    }
    const still = unsent();
    keep_unsent(Object.fromEntries(Object.entries(still).filter(([key, value]) => chosen[key as keyof Habits] !== value)));
  }
}

let sending: Promise<void> | undefined;
const tell = () =>
  (sending ??= send_all().finally(() => {
    sending = undefined;
  }));

async function listen(): Promise<void> {
  try {
    follow(await get<SettingRecord>(route));
  } catch {
    // Nobody has chosen yet, or nobody answers.
  }
  await tell();
}

export function change_habit<K extends keyof Habits>(key: K, value: Settings[K]): void {
  keep_unsent({ ...unsent(), [key]: value });
  change_setting(key, value);
  void tell();
}

/** Follows what other devices choose. */
export function keep_house(): void {
  on_news((news) => {
    if (news.what === "change" && news.change.kind === "setting" && news.change.id === "habits") void listen();
  });
  anew.subscribe(() => void listen());
}
