// Whose clock holds. A phone's may be wrong: it is measured against the server's Date, shown where they are apart, and a tap
// says which of them is right.
import { signal } from "@preact/signals";
import { set_ahead } from "../say/clock";
import { drop_text, keep_text, kept_text } from "./store";

/** Clocks closer than this say the same time. */
export const apart_worth_saying_ms = 60_000;
/** An answer that took longer says too little of the hour. */
const longest_trip_ms = 5000;
const place = "barm.clock";

interface Choice {
  holds: "server" | "device";
  /** How far the server's clock was ahead then. */
  ahead_ms: number;
}

function remembered(): Choice | undefined {
  try {
    const kept = JSON.parse(kept_text(place) ?? "null") as Choice | null;
    return kept !== null && typeof kept.ahead_ms === "number" && (kept.holds === "server" || kept.holds === "device") ? kept : undefined;
  } catch {
    return undefined;
  }
}

/** How far the server's clock is ahead of this device's, as last heard. */
export const server_ahead_ms = signal(0);
export const choice = signal<Choice | undefined>(remembered());

const apply = () => set_ahead(choice.value?.holds === "server" ? choice.value.ahead_ms : 0);
apply();

/** The clocks are apart and nobody has said yet which is right. */
export const in_question = () =>
  Math.abs(server_ahead_ms.value) >= apart_worth_saying_ms &&
  (choice.value === undefined || Math.abs(choice.value.ahead_ms - server_ahead_ms.value) >= apart_worth_saying_ms);

export function choose(holds: Choice["holds"] | undefined): void {
  choice.value = holds === undefined ? undefined : { holds, ahead_ms: server_ahead_ms.value };
  if (choice.value === undefined) drop_text(place);
  else keep_text(place, JSON.stringify(choice.value));
  apply();
}

/** The server's Date in an answer, and when it was asked and answered by this device's clock. */
export function heard_date(header: string | null, asked_ms: number, answered_ms: number): void {
  const told = header === null ? Number.NaN : Date.parse(header);
  if (Number.isNaN(told) || answered_ms < asked_ms || answered_ms - asked_ms > longest_trip_ms) return;
  // The header is cut to the second.
  const ahead = told + 500 - (asked_ms + answered_ms) / 2;
  const doubt = 500 + (answered_ms - asked_ms) / 2;
  if (Math.abs(ahead - server_ahead_ms.value) <= 2 * doubt) return;
  server_ahead_ms.value = ahead;
  // A clock that has been set since needs no correction any more; one that drifted takes the server's along.
  if (Math.abs(ahead) < apart_worth_saying_ms) choose(undefined);
  else if (choice.value?.holds === "server") choose("server");
}

/** Now by the server's clock, in milliseconds. */
export const server_now = () => Date.now() + server_ahead_ms.value;
