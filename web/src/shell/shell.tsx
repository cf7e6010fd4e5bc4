// The frame around every screen: the places to go to, what is amiss, and the screen itself.
import { useEffect, useRef, useState } from "preact/hooks";
import { away, unpaired } from "../api/ask";
import { ready_now } from "../state/ready_watch";
import { outbox, type Waiting } from "../state/outbox";
import { type Params, type Place, type Screen, places } from "./places";
import { address, link, match } from "./router";
import { Failed } from "../parts/states";
import { Pair, scanned_key } from "./pair";

function place_of(path: readonly string[]): { place: Place; params: Params } | undefined {
  for (const place of places) {
    const params = match(place.pattern, path);
    if (params) return { place, params };
  }
  return undefined;
}

export function Shell() {
  const { path } = address.value;
  const found = place_of(path);
  const main = useRef<HTMLElement>(null);
  const first = useRef(true);
  useEffect(() => {
    document.title = found ? `${found.place.title} · Barmwright` : "Barmwright";
    // A new screen starts at its top, for eyes and for screen readers alike.
    if (!first.current) {
      main.current?.focus({ preventScroll: true });
      scrollTo(0, 0);
    }
    first.current = false;
  }, [path.join("/")]);
  return (
    <div class="shell">
      <a class="skip button" href="#main" onClick={(event) => {
        event.preventDefault();
        main.current?.focus();
      }}>
        To the screen
      </a>
      <div class="strips">
        <Strips />
      </div>
      <main id="main" ref={main} tabIndex={-1}>
        {unpaired.value || scanned_key(path) ? <Pair /> : found ? <Loaded key={found.place.pattern} {...found} /> : <Nowhere />}
      </main>
      <Places here={path} />
    </div>
  );
}

function Loaded({ place, params }: { place: Place; params: Params }) {
  const [screen, set_screen] = useState<{ Screen: Screen } | undefined>(undefined);
  const [error, set_error] = useState<unknown>(undefined);
  useEffect(() => {
    place.load().then((module) => set_screen({ Screen: module.default }), set_error);
  }, [place]);
  if (error) return <Failed error={error} again={() => location.reload()} />;
  return screen ? <screen.Screen key={JSON.stringify(params)} params={params} /> : <p class="quiet">Opening…</p>;
}

function Nowhere() {
  return (
    <div class="stack">
      <h1>Nothing here</h1>
      <p>This address leads to no screen.</p>
      <a class="button" href={link()}>
        To today
      </a>
    </div>
  );
}

function Places({ here }: { here: readonly string[] }) {
  const current = (place: Place) => {
    const [head] = here;
    const own = head === "bake" || head === "new" ? "bakes" : head === "culture" ? "cultures" : (head ?? "");
    return place.pattern === own ? ("page" as const) : undefined;
  };
  const known = new Set(places.filter((p) => p.found === "bar").map((p) => p.pattern));
  return (
    <nav class="places" aria-label="Places">
      <span class="brand" aria-hidden="true">
        Barmwright
      </span>
      <ul>
        {places
          .filter((p) => p.found === "bar" || p.found === "rail")
          .map((place) => (
            <li key={place.pattern} class={place.found === "rail" ? "only-desk" : ""}>
              <a href={link(place.pattern)} aria-current={current(place)}>
                {place.title}
              </a>
            </li>
          ))}
        <li class="only-phone">
          <a href={link("more")} aria-current={known.has(own_of(here)) ? undefined : "page"}>
            More
          </a>
        </li>
      </ul>
    </nav>
  );
}

function own_of([head]: readonly string[]): string {
  return head === "bake" || head === "new" ? "bakes" : head === "culture" ? "cultures" : (head ?? "");
}

function Strips() {
  const [waiting, set_waiting] = useState<readonly Waiting[]>([]);
  useEffect(() => {
    let stop: (() => void) | undefined;
    void outbox().then((box) => {
      stop = box.waiting.subscribe(set_waiting);
    });
    return () => stop?.();
  }, []);
  const refused = waiting.filter((w) => w.refused !== undefined);
  const kept = waiting.length - refused.length;
  return (
    <>
      <div role="status">
        {away.value && (
          <p class="strip">
            The server is away. {kept > 0 ? `${kept} ${kept === 1 ? "reading is" : "readings are"} kept here and sent when it is back.` : "What you type stays in this browser and is sent when it is back."}
          </p>
        )}
      </div>
      {refused.map((w) => (
        <p class="strip" key={w.reading.id}>
          A reading of {w.reading.at.slice(0, 16).replace("T", " ")} was not taken: {w.refused}{" "}
          <button type="button" class="plain" onClick={() => void outbox().then((box) => box.forget(w.reading.id))}>
            Drop it
          </button>
        </p>
      ))}
      {ready_now.value.map((dough) => (
        <p class="ready-now" role="alert" key={dough.bake}>
          <a href={link("bake", dough.bake, "read")}>
            <strong>{dough.title}</strong>: the ready window is open. Look at the dough.
          </a>{" "}
          <button type="button" onClick={() => (ready_now.value = ready_now.value.filter((d) => d !== dough))}>
            Seen
          </button>
        </p>
      ))}
    </>
  );
}
