// What the server tells of itself beside its answers (docs/api.md): which barm it is, which daybook it answers from, and whether
// what is saved comes to the disk.
import { signal } from "@preact/signals";
import { keep_text, kept_text } from "../state/store";

/** The version of the program that this page was built with. */
export const page_version = __BARM_VERSION__;
export const version_header = "Barm-Version";
/** Sent with every question and change: the server takes none from a page of another version. */
export const page_header = "Barm-Page";
/** By whose wall clock the server reads and says times. */
export const zone_header = "Barm-Zone";

export type Saving = "yes" | "read_only" | "disk_full" | "disk_fails";

/** What GET /api/status, the news and problems may say of the server. */
export interface Told {
  version?: string;
  /** Another one after each restore; 0 without a daybook. */
  epoch?: number;
  saving?: Saving;
}

/** Another barm answers than the one this page is of, until it is loaded anew. */
export const outdated = signal(false);
/** Why nothing can be saved now; shown on every screen. */
export const cannot_save = signal<{ why: Saving; detail: string } | undefined>(undefined);
/** The daybook was put back from a copy, or is another one, until somebody has read that. */
export const another_daybook = signal(false);

const place = "barm.epoch";
const told_before = Number(kept_text(place) ?? 0);
/** The epoch of the daybook as last heard; 0 before any was. */
export const epoch = signal(Number.isFinite(told_before) ? told_before : 0);

/** Whether all that was answered before is of another daybook. */
export function hear(told: Told, detail = ""): boolean {
  if (told.version !== undefined && told.version !== page_version) outdated.value = true;
  if (told.saving === "yes") cannot_save.value = undefined;
  else if (told.saving !== undefined) cannot_save.value = { why: told.saving, detail };
  if (!told.epoch || told.epoch === epoch.value) return false;
  const another = epoch.value !== 0;
  epoch.value = told.epoch;
  keep_text(place, String(told.epoch));
  if (another) another_daybook.value = true;
  return another;
}
