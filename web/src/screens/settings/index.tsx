// How numbers are said in this bakery, light or dark on this device, and what this server can and cannot do.
import type { Status } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice } from "../../parts/field";
import { change_habit } from "../../settings/house";
import { change_setting, settings } from "../../settings/settings";
import { weight, warmth } from "../../say/say";
import { clock, date, now } from "../../say/clock";
import { choice, choose } from "../../state/clock";
import { HouseFields } from "./house_fields";
import { LetIn } from "./let_in";
import { UnsavedHere } from "./unsaved";

export default function SettingsScreen() {
  const now_set = settings.value;
  const status = useAnswer<Status>("/api/status").answer;
  return (
    <div class="stack">
      <h1>House</h1>
      <HouseFields />
      <section class="stack" aria-labelledby="numbers">
        <h2 id="numbers">How numbers are said here</h2>
        <div class="pair">
          <Choice label="Warmth" value={now_set.warmth} options={[["C", "Celsius"], ["F", "Fahrenheit"]]} give={(v) => change_habit("warmth", v)} />
          <Choice label="Weight" value={now_set.weight} options={[["g", "grams"], ["oz", "ounces and pounds"]]} give={(v) => change_habit("weight", v)} />
          <Choice label="Clock" value={now_set.clock} options={[["24", "24 hours"], ["12", "12 hours"]]} give={(v) => change_habit("clock", v)} />
          <Choice label="Decimal sign" value={now_set.decimal} options={[[".", "point: 2.5"], [",", "comma: 2,5"]]} give={(v) => change_habit("decimal", v)} />
          <Choice label="Dates" value={now_set.dates} options={[["day", "day first: 28 Nov"], ["month", "month first: Nov 28"]]} give={(v) => change_habit("dates", v)} />
        </div>
        <p class="quiet">
          Such as: {weight(1079.4, now_set)}, {weight(7.25, now_set)}, {warmth(24.5, now_set)}, {date(now(), now_set)}, {clock(now(), now_set)}
        </p>
      </section>
      <section class="stack" aria-labelledby="look">
        <h2 id="look">Light, and sound</h2>
        <div class="pair">
          <Choice
            label="Light"
            value={now_set.theme}
            options={[["auto", "as the device"], ["light", "light"], ["dark", "dark"]]}
            give={(v) => change_setting("theme", v)}
          />
          <Choice
            label="When a ready window opens"
            value={now_set.sound ? "on" : "off"}
            options={[["on", "flash, sound"], ["off", "flash only"]]}
            give={(v) => change_setting("sound", v === "on")}
          />
        </div>
        <p class="quiet small">
          The page sounds only while it is open and was touched once. For a phone in a pocket take the calendar file of a bake.
        </p>
      </section>
      {status?.lan && <LetIn />}
      {choice.value && <Clock holds={choice.value.holds} />}
      <UnsavedHere />
      {status && (
        <section class="stack tight" aria-labelledby="server">
          <h2 id="server">This server</h2>
          <p>
            {status.program} {status.version}; {status.lan ? "other devices of the house may reach it" : "only this machine reaches it"}.
          </p>
          {status.certificates && (
            <div class="note stack tight">
              <p>
                To be rid of the browser's warning for good, install <a href={status.certificates.authority}>this house's certificate</a> on
                this device. It can vouch for this house's own names and network alone. Install it only if its fingerprint (SHA-256) is this
                one, and the same stands in the terminal:
              </p>
              <p class="small">
                <code>{status.certificates.authority_sha256}</code>
              </p>
            </div>
          )}
          {status.missing.map((m) => (
            <div class="note stack tight" key={m.what}>
              <p>
                <strong>{m.what}</strong> {m.because}
              </p>
              <p>{m.how}</p>
            </div>
          ))}
        </section>
      )}
      <p class="quiet small">How numbers are said is kept in the daybook, for every device; light and sound in this browser.</p>
    </div>
  );
}

/** Whose clock holds, once somebody had to say. */
function Clock({ holds }: { holds: "server" | "device" }) {
  return (
    <section class="stack tight" aria-labelledby="clock">
      <h2 id="clock">The clock</h2>
      <p>
        This device and the server do not agree on the time; {holds === "server" ? "the server's" : "this device's"} holds here.{" "}
        <button type="button" onClick={() => choose(undefined)}>
          Choose again
        </button>
      </p>
    </section>
  );
}
