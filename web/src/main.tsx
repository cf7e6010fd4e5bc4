import { render } from "preact";
import "./look/tokens.css";
import "./look/base.css";
import "./look/shell.css";
import "./look/parts.css";
import { anew, ask_all_anew, at_rest, away, get } from "./api/ask";
import { keep_listening } from "./api/live";
import { type Told, hear } from "./api/told";
import type { Status } from "./api/types";
import { keep_house } from "./settings/house";
import { keep_settings } from "./settings/settings";
import { scanned_key } from "./shell/pair";
import { address, keep_address } from "./shell/router";
import { Shell, place_of } from "./shell/shell";
import { keep_what_is_unread } from "./shell/unread";
import { keep_drafts } from "./state/drafts";
import { outbox } from "./state/outbox";
import { keep_watch } from "./state/ready_watch";

keep_settings();
keep_house();
keep_drafts();
keep_address();
keep_what_is_unread();
const first = place_of(address.peek().path);
if (first && !scanned_key(address.peek().path)) {
  first.place.ahead(first.params);
  first.place.load().catch(() => undefined); // the frame says so
}
render(<Shell />, document.getElementById("page") as HTMLElement);
keep_listening();
keep_watch();

const flush = () => void outbox().then((box) => box.flush());
const look = () => 
  void get<Status & Told>("/api/status").then(
    (status) => hear(status) && ask_all_anew(),
    () => undefined,
  );

// When the server is back: send what waited, and let every screen ask again. What it could not take then, it may take later.
const knock = () => {
  if (away.value) look();
};
setInterval(knock, 1000);
setInterval(flush, 30_000);
addEventListener("online", knock);
anew.subscribe(() => {
  look();
  flush();
});

/** Fetches all that is wanted while the server is away: once the first screen has its answers, which it would delay. */
function keep_for_later(): void {
  if (!("serviceWorker" in navigator)) return;
  void navigator.serviceWorker
    .register("/sw.js")
    .then(() => navigator.serviceWorker.ready)
    .then((worker) => worker.active?.postMessage("keep"))
    .catch(() => undefined);
}

void at_rest().then(keep_for_later);
