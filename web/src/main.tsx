import { render } from "preact";
import "./look/tokens.css";
import "./look/base.css";
import "./look/shell.css";
import "./look/parts.css";
import { away, get } from "./api/ask";
import { keep_listening, on_news } from "./api/live";
import type { Status } from "./api/types";
import { keep_house } from "./settings/house";
import { keep_settings } from "./settings/settings";
import { keep_address } from "./shell/router";
import { Shell } from "./shell/shell";
import { outbox } from "./state/outbox";
import { keep_watch } from "./state/ready_watch";

keep_settings();
keep_house();
keep_address();
render(<Shell />, document.getElementById("page") as HTMLElement);
keep_listening();
keep_watch();

// When the server is back: send what waited, and let every screen ask again.
const knock = () => {
  if (away.value) void get<Status>("/api/status").catch(() => undefined);
};
setInterval(knock, 3000);
addEventListener("online", knock);
let was_away = false;
away.subscribe((is_away) => {
  if (was_away && !is_away) void outbox().then((box) => box.flush());
  was_away = is_away;
});
void outbox().then((box) => box.flush());
on_news((news) => {
  if (news.what === "everything") void outbox().then((box) => box.flush());
});

if ("serviceWorker" in navigator) {
  void navigator.serviceWorker
    .register("/sw.js")
    .then(() => navigator.serviceWorker.ready)
    .then((worker) => worker.active?.postMessage("keep"))
    .catch(() => undefined);
}
