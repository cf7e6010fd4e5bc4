// What changes on the server, as it changes. One stream a browser: the tab that holds the lock "barm.live" listens and
// tells the others. After sleep, or when the stream breaks, the browser reconnects by itself and the server sends what
// was missed; a tab that was away too long, or that takes the lock over after something has changed, fetches everything anew.
import { signal } from "@preact/signals";
import type { Change, Job } from "./types";
import { forget_ahead } from "./ahead";
import { ask_all_anew, away } from "./ask";
import { type Told, hear } from "./told";

/** "told": what the server says of itself, which may be another program than before, on another daybook. */
export type News = { what: "change"; change: Change } | { what: "everything" } | { what: "told"; told: Told } | { what: "job"; job: Job };

type Listener = (news: News) => void;
const listeners = new Set<Listener>();

/** Calls back for every piece of news until the returned function is called; that everything may have changed comes as `anew`. */
export function on_news(listener: Listener): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Whether this tab is the one that listens for all. */
export const listening = signal(false);

/** The number of the last change this tab has heard of, itself or from the tab that listens; -1 before any. */
let known = -1;

export function spread(news: News): void {
  if (news.what === "change") forget_ahead();
  // What this tab has sent itself has no number yet.
  if (news.what === "change" && news.change.number > 0) known = news.change.number;
  if (news.what === "everything" || (news.what === "told" && hear(news.told))) ask_all_anew();
  for (const listener of [...listeners]) listener(news);
}

export function keep_listening(): void {
  const channel = typeof BroadcastChannel === "undefined" ? undefined : new BroadcastChannel("barm.live");
  channel?.addEventListener("message", (event: MessageEvent<News>) => spread(event.data));
  const tell = (news: News) => {
    spread(news);
    channel?.postMessage(news);
  };
  if (channel && navigator.locks) {
    const for_good = (late: boolean) => new Promise<never>(() => listen(tell, late));
    void navigator.locks
      .request("barm.live", { ifAvailable: true }, (lock) => lock && for_good(false))
      .then(() => navigator.locks.request("barm.live", () => for_good(true)));
  } else {
    listen_while_seen(spread);
  }
}

/** `late`: nobody may have listened for a while, so that changes may have gone unheard. */
function listen(tell: Listener, late = false): EventSource {
  listening.value = true;
  const stream = new EventSource("/api/events");
  const read = <Data>(event: Event) => JSON.parse((event as MessageEvent<string>).data) as Data;
  stream.addEventListener("hello", (event) => {
    const { last, ...told } = read<{ last: number } & Told>(event);
    tell({ what: "told", told });
    const missed = late && last !== known;
    const was_away = away.value;
    away.value = late = false;
    known = last;
    if (missed) tell({ what: "everything" });
    else if (was_away) ask_all_anew();
  });
  stream.addEventListener("change", (event) => {
    tell({ what: "change", change: read<Change>(event) });
  });
  stream.addEventListener("reload", (event) => {
    const { last, ...told } = read<{ last: number } & Told>(event);
    known = last;
    tell({ what: "told", told });
    tell({ what: "everything" });
  });
  stream.addEventListener("saving", (event) => tell({ what: "told", told: read<Told>(event) }));
  stream.addEventListener("job", (event) => {
    tell({ what: "job", job: read<Job>(event) });
  });
  // A stream that the server refused (not paired, too busy) is closed for good: try again after a while.
  stream.addEventListener("error", () => {
    late = true;
    if (stream.readyState === EventSource.CLOSED) setTimeout(() => listen(tell, true), 5000);
  });
  return stream;
}

/** Without locks (plain http on another host) each tab listens only while it is looked at. */
function listen_while_seen(tell: Listener): void {
  let stream: EventSource | undefined;
  const follow = () => {
    if (document.visibilityState === "visible") {
      stream ??= listen(tell);
    } else {
      stream?.close();
      stream = undefined;
    }
  };
  document.addEventListener("visibilitychange", follow);
  follow();
}
