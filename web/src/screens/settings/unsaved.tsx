// Everything typed in this browser and not saved, on whatever screen: where it is, since when, and the way to drop it.
import { ago, from_utc } from "../../say/clock";
import { link } from "../../shell/router";
import { draft, drafts, give_up, kept_days } from "../../state/drafts";
import { can_undo } from "../../state/undo";

interface Place {
  what: string;
  to: string | undefined;
}

const of_bake = (what: string, leaf: string) => (id: string): Place => ({ what, to: link("bake", id, leaf) });
const of_test = (what: string) => (id: string): Place => ({ what, to: link("test", id) });

/** The beginnings of the names of drafts (state/drafts.ts). */
const places: Record<string, (id: string) => Place> = {
  "bake.": (id) => (draft(`bake.${id}`)?.revision === 0 ? { what: "a new bake", to: link("new", id) } : { what: "changes to a recipe", to: link("bake", id) }),
  "bench.": of_bake("weights on a bench sheet", "bench"),
  "read.": of_bake("a reading of a dough", "read"),
  "rescue.": of_bake("questions about a late dough", "rescue"),
  "drink.": of_bake("how a drink was played with", "drink"),
  "thin.": () => ({ what: "a drink thinned", to: undefined }),
  "house.name": () => ({ what: "the name of the house", to: link("settings") }),
  poll: () => ({ what: "a poll", to: undefined }),
  "water.house": () => ({ what: "how warm flour, room and tap are", to: undefined }),
  "till.": of_bake("figures for a price", "sell"),
  "looks.": of_test("heights of jars"),
  "label.": of_bake("fields of a label", "sell"),
  "half.till.": (id) => ({ what: "a figure for a price, half typed", to: link("bake", id.split(".")[0] ?? "", "sell") }),
  "half.label.": (id) => ({ what: "a field of a label, half typed", to: link("bake", id.split(".")[0] ?? "", "sell") }),
  "taste.": of_test("a tasting"),
  "day.": of_test("a day of a test bake"),
  "feed.": (id) => ({ what: "a feeding", to: link("culture", id) }),
  "score.": () => ({ what: "a score of a loaf", to: undefined }),
  first: () => ({ what: "a first bake", to: link("first") }),
  "new.test": () => ({ what: "a new test bake", to: link("tests") }),
  "new.culture": () => ({ what: "a new culture", to: link("cultures") }),
  "new.bottle": () => ({ what: "a new bottle", to: link("larder") }),
  "record.test-bakes.": of_test("changes to a test bake"),
  "record.cultures.": (id) => ({ what: "changes to a culture", to: link("culture", id) }),
  "record.bottles.": () => ({ what: "changes to a bottle", to: link("larder") }),
  "record.loaves.": () => ({ what: "changes to a loaf", to: undefined }),
  "record.settings.": () => ({ what: "changes to the price file", to: undefined }),
};

function place_of(name: string): Place {
  const beginning = Object.keys(places).find((begins) => name.startsWith(begins));
  return (beginning && places[beginning]?.(name.slice(beginning.length))) || { what: name, to: undefined };
}

export function UnsavedHere() {
  const all = drafts();
  return (
    <section class="stack tight" aria-labelledby="unsaved">
      <h2 id="unsaved">Typed here, not saved yet</h2>
      {all.length === 0 && <p class="quiet">Nothing.</p>}
      <ul class="bare stack tight">
        {all.map((name) => {
          const { what, to } = place_of(name);
          const kept = draft(name);
          const title = (kept?.value as { form?: { name?: unknown } } | undefined)?.form?.name;
          const words = typeof title === "string" ? `${what}: ${title}` : what;
          return (
            <li key={name} class="entry">
              <span>
                {to ? <a href={to}>{words}</a> : words}{" "}
                <span class="quiet small">{ago(from_utc(kept?.kept_at ?? ""))}</span>
              </span>
              <button type="button" aria-label={`Drop it: ${words}`} onClick={() => can_undo(`Dropped: ${words}.`, give_up(name))}>
                Drop it
              </button>
            </li>
          );
        })}
      </ul>
      <p class="quiet small">Kept in this browser until it is saved or dropped, at most {kept_days} days.</p>
    </section>
  );
}
