// Watches, while the page is open, for the ready window of any living dough to open; then flashes and, if wanted, sounds.
import { signal } from "@preact/signals";
import { anew, at_rest, get } from "../api/ask";
import { on_news } from "../api/live";
import type { Today } from "../api/types";
import { from_utc, now } from "../say/clock";
import { settings } from "../settings/settings";

type Dough = Today["doughs"][number];

/** The doughs whose window opened while the page was open, until somebody has seen it. */
export const ready_now = signal<readonly Dough[]>([]);

/** The doughs whose window opens at or before `at` and did not at `before`. */
export function opened_between(doughs: readonly Dough[], before: number, at: number): Dough[] {
  return doughs.filter((dough) => {
    const opens = dough.ready_p10_at === null ? undefined : from_utc(dough.ready_p10_at);
    return opens !== undefined && opens > before && opens <= at;
  });
}

let audio: AudioContext | undefined;

/** Browsers let a page sound only after it was touched once. */
function make_audio(): void {
  audio ??= new AudioContext();
}

/** Three soft strokes, like a spoon on a jar. */
function strike(): void {
  if (!audio || !settings.value.sound) return;
  for (const [i, pitch] of [880, 1175, 1318].entries()) {
    const start = audio.currentTime + 0.35 * i;
    const tone = audio.createOscillator();
    const loud = audio.createGain();
    tone.frequency.value = pitch;
    loud.gain.setValueAtTime(0.25, start);
    loud.gain.exponentialRampToValueAtTime(0.001, start + 1.2);
    tone.connect(loud).connect(audio.destination);
    tone.start(start);
    tone.stop(start + 1.3);
  }
}

/** All living doughs as last heard. */
export const doughs_alive = signal<readonly Dough[]>([]);

/** The bakes that are late, as heard last of each. */
const late = signal<ReadonlySet<string>>(new Set());

/** Whether nine of ten doughs like it would be ready by now, or fewer than half ever will. */
export const is_late = (bake: string) => late.value.has(bake);

/** A screen of the bake was answered: what its head says is known before the doughs are asked for. */
export function heard_late(bake: string, is: boolean): void {
  if (is === late.value.has(bake)) return;
  late.value = new Set(is ? [...late.value, bake] : [...late.value].filter((one) => one !== bake));
}

const settle_ms = 400;

export function keep_watch(every_ms = 15_000): void {
  const opened = now();
  const told = new Set<string>();
  const look = () => {
    const ready = opened_between(doughs_alive.value, opened, now()).filter((d) => !told.has(d.bake));
    if (ready.length === 0) return;
    for (const dough of ready) told.add(dough.bake);
    ready_now.value = [...ready_now.value, ...ready];
    strike();
  };
  let asking: AbortController | undefined;
  const fetch_doughs = () => {
    asking?.abort();
    asking = new AbortController();
    return get<Today>("/api/today", { signal: asking.signal }).then(
      (today) => {
        doughs_alive.value = today.doughs;
        late.value = new Set(today.doughs.filter((d) => d.late).map((d) => d.bake));
        look();
      },
      () => undefined,
    );
  };
  let soon: ReturnType<typeof setTimeout> | undefined;
  addEventListener("pointerdown", make_audio, { once: true });
  addEventListener("keydown", make_audio, { once: true });
  // The screen that is looked at comes first.
  anew.subscribe(() => void at_rest().then(fetch_doughs));
  on_news((news) => {
    if (news.what !== "change" || !["bake", "reading", "mark"].includes(news.change.kind)) return;
    // Many readings that come at once are one reason to ask.
    clearTimeout(soon);
    soon = setTimeout(() => void fetch_doughs(), settle_ms);
  });
  setInterval(look, every_ms);
  setInterval(() => void fetch_doughs(), 300_000);
}
