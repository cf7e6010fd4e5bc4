// The house itself: its name, its accent, its currency, its time zone. Kept in the daybook, alike on every device.
import { conflicting, put } from "../api/ask";
import type { SettingRecord } from "../api/types";
import { zone_here } from "../say/clock";
import { useAnswer } from "../api/use";

export interface House {
  name: string;
  /** A colour as the browser's own field gives it. */
  accent: string;
  currency: string;
  zone: string;
}

const route = "/api/settings/house";
const usual = (): House => ({ name: "", accent: "#9b4418", currency: "EUR", zone: zone_here() });

function house_of(record: Pick<SettingRecord, "value" | "deleted_at"> | undefined): House {
  if (!record || record.deleted_at !== null) return usual();
  try {
    const kept: unknown = JSON.parse(record.value);
    return typeof kept === "object" && kept !== null ? { ...usual(), ...(kept as Partial<House>) } : usual();
  } catch {
    return usual();
  }
}

export function useHouse(): { house: House; change: (what: Partial<House>) => Promise<void> } {
  const held = useAnswer<SettingRecord>(route, ["setting"]);
  const send = async (what: Partial<House>, over: SettingRecord | undefined): Promise<void> => {
    const value = JSON.stringify({ ...house_of(over), ...what });
    try {
      await put<SettingRecord>(route, { value, revision: over?.revision ?? 0 });
    } catch (error) {
      // What another device chose meanwhile holds beside it.
      const newer = conflicting<SettingRecord>(error);
      if (!newer) throw error;
      return send(what, newer);
    }
    held.again();
    return undefined;
  };
  return { house: house_of(held.answer), change: (what) => send(what, held.answer) };
}

/** The currencies that Intl knows how to write; the usual ones first. */
export const currencies = ["EUR", "GBP", "USD", "CHF", "SEK", "DKK", "NOK", "PLN", "CZK", "CAD", "AUD", "NZD", "JPY"] as const;
