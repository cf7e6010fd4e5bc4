// A device whose clock is not the server's, or whose zone is not the bakery's: what each of them says now.
import { useState } from "preact/hooks";
import { type Moment, exact_moment, goes_as_here, now, zone_here } from "../say/clock";
import { useHabits } from "../say/say";
import { choose, server_ahead_ms, server_now } from "../state/clock";
import { useHouse } from "../state/house";
import { outbox } from "../state/outbox";
import { keep_text, kept_text } from "../state/store";
import { link } from "./router";

/** "12 min", "1 h 15 min", "3 days". */
function apart(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  if (h >= 48) return `${Math.round(h / 24)} days`;
  return [...(h > 0 ? [`${h} h`] : []), ...(min > 0 ? [`${min} min`] : [])].join(" ");
}

export function ClocksApart() {
  const habits = useHabits();
  const ahead = server_ahead_ms.value;
  const said = (ms: number) => exact_moment(ms as Moment, habits);
  const go_by = async (whose: "server" | "device") => {
    const before = now();
    choose(whose);
    await (await outbox()).set_later(now() - before);
  };
  return (
    <p class="strip">
      This device's clock is {apart(Math.abs(ahead))} {ahead < 0 ? "ahead of" : "behind"} the server's: {said(Date.now())} here,{" "}
      {said(server_now())} there.{" "}
      <button type="button" onClick={() => void go_by("server")}>
        Go by the server's
      </button>{" "}
      <button type="button" onClick={() => void go_by("device")}>
        Mine is right
      </button>
    </p>
  );
}

const zones_seen = "barm.zones.seen";

/** Hours on the page are those of the device: told where the bakery's are others, until somebody has seen it. */
export function ZonesApart() {
  const habits = useHabits();
  const { zone } = useHouse().house;
  const here = zone_here();
  const pair = `${zone} ${here}`;
  const [seen, set_seen] = useState(kept_text(zones_seen));
  if (zone === here || seen === pair || goes_as_here(zone, habits)) return null;
  const close = () => {
    keep_text(zones_seen, pair);
    set_seen(pair);
  };
  return (
    <p class="strip">
      The bakery goes by {zone}, where it is {exact_moment(now(), habits, zone)}. This device goes by {here}: {exact_moment(now(), habits)}, and so do all
      hours here. <a href={link("settings")}>The bakery's zone</a>{" "}
      <button type="button" onClick={close}>
        Seen
      </button>
    </p>
  );
}
