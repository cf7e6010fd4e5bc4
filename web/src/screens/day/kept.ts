// The plan the house goes by: the setting "day-plan" of the daybook, which Today reads. And its calendar file.
import { conflicting, get, post, put, Refusal } from "../../api/ask";
import { zone_header } from "../../api/told";
import type { SettingRecord } from "../../api/types";
import { from_utc, now, zone_here } from "../../say/clock";
import { type Asked, told_back } from "./moves";

const route = "/api/settings/day-plan";

/** Nothing where none is kept, or its bread was wanted already. */
export async function kept_plan(): Promise<Asked | undefined> {
  try {
    const record = await get<SettingRecord>(route);
    if (record.deleted_at !== null) return undefined;
    const { day, answer } = JSON.parse(record.value) as { day: string; answer: Asked["answer"] };
    const bread = from_utc(answer.bread);
    return bread === undefined || bread < now() ? undefined : { text: day, answer, kept: true };
  } catch (wrong) {
    if (wrong instanceof Refusal || wrong instanceof SyntaxError || wrong instanceof TypeError) return undefined;
    throw wrong;
  }
}

/** The house goes by this plan from now on, whatever it went by before. */
export async function keep_plan({ text, answer }: Asked): Promise<void> {
  const value = JSON.stringify({ schema: "barm.kept_day/1", day: text, answer });
  const last = await get<SettingRecord>(route).catch((wrong: unknown) => {
    if (wrong instanceof Refusal) return undefined;
    throw wrong;
  });
  // Out of the trash, so that it can be written over.
  const before = last && last.deleted_at !== null ? await post<SettingRecord>(`${route}/undo`, {}) : last;
  try {
    await put<SettingRecord>(route, { value, revision: before?.revision ?? 0 });
  } catch (wrong) {
    const other = conflicting<SettingRecord>(wrong);
    if (!other) throw wrong;
    await put<SettingRecord>(route, { value, revision: other.revision });
  }
}

/** The steps as a calendar file with alarms, given to the browser to keep. */
export async function take_calendar({ text, answer }: Asked): Promise<void> {
  const response = await fetch("/api/day-calendar", {
    method: "POST", credentials: "same-origin",
    headers: { "Content-Type": "application/json", [zone_header]: zone_here() },
    body: JSON.stringify({ day: text, ...told_back(answer), alarm_min: 5 }),
  });
  if (!response.ok) throw new Error("The calendar could not be written: plan the day again.");
  const link = document.createElement("a");
  link.href = URL.createObjectURL(await response.blob());
  link.download = `${answer.name}.ics`;
  link.click();
  URL.revokeObjectURL(link.href);
}
