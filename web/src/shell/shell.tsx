// The frame around every screen: the places to go to, what is amiss, and the screen itself.
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { unpaired } from "../api/ask";
import type { Params } from "./names";
import { type Place, type Screen, places } from "./places";
import { address, link, match } from "./router";
import { Pair, scanned_key } from "./pair";
import { Strips } from "./strips";
import { Waiting } from "../parts/states";
import { UndoBar } from "./undo_bar";

export function place_of(path: readonly string[]): { place: Place; params: Params } | undefined {
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
        Skip to the screen
      </a>
      <div class="strips">
        <Strips />
      </div>
      <Places here={path} />
      <main id="main" ref={main} tabIndex={-1}>
        {unpaired.value || scanned_key(path) ? <Pair /> : found ? <Loaded key={found.place.pattern} {...found} /> : <Nowhere />}
      </main>
      <UndoBar />
    </div>
  );
}

function Loaded({ place, params }: { place: Place; params: Params }) {
  const [screen, set_screen] = useState<{ Screen: Screen } | undefined>(undefined);
  const [missing, set_missing] = useState(false);
  // Before the next picture: on a slow phone a picture is what takes long.
  useLayoutEffect(() => {
    place.load().then(
      (module) => set_screen({ Screen: module.default }),
      () => set_missing(true),
    );
  }, [place]);
  if (missing) {
    return (
      <div class="note stack tight" role="alert">
        <p>This screen cannot be fetched now. Reload the page; what you typed is kept.</p>
        <div>
          <button type="button" onClick={() => location.reload()}>
            Reload
          </button>
        </div>
      </div>
    );
  }
  return screen ? <screen.Screen key={JSON.stringify(params)} params={params} /> : <Waiting what="Opening…" />;
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
    return place.pattern === own_of(here) ? ("page" as const) : undefined;
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

/** The place that a screen belongs to. */
const within: Readonly<Record<string, string>> = { bake: "bakes", new: "bakes", first: "bakes", culture: "cultures", test: "tests" };

const own_of = ([head = ""]: readonly string[]) => within[head] ?? head;
