// Every screen of the page by its address. A screen is a folder of src/screens/: its name.json, and an index.tsx whose default
// export takes the named parts of its address; it is fetched when it is gone to.
import type { ComponentType } from "preact";
import { ask_ahead } from "../api/ask";
import { read_ahead } from "../api/bakes";
import { draft } from "../state/drafts";
import { readings_of_bake } from "../state/known_readings";
import { type Named, type Params, names_by_folder } from "./names";

export type Screen = ComponentType<{ params: Params }>;

export interface Place extends Named {
  load: () => Promise<{ default: Screen }>;
  /** Asks what the screen will ask first, while its script is on its way. */
  ahead: (params: Params) => void;
}

const of_bake = ({ id = "" }: Params) => {
  ask_ahead("GET", `/api/bakes/${encodeURIComponent(id)}`);
  read_ahead(id);
  ask_ahead("GET", `/api/marks?owner=${id}&limit=500`);
  ask_ahead("GET", readings_of_bake(id));
};

/** The forecast too, where no unsaved change stands over the bake. */
const of_recipe = (params: Params) => {
  of_bake(params);
  if (draft(`bake.${params.id}`) === undefined) ask_ahead("POST", "/api/foresee", { bake_id: params.id });
};

const aheads: Readonly<Record<string, Place["ahead"]>> = {
  "": () => ask_ahead("GET", "/api/today"),
  "bake/:id": of_recipe,
  "bake/:id/drink": of_recipe,
};

const loads = import.meta.glob<{ default: Screen }>("../screens/*/index.tsx");

const place_of = (folder: string, named: Named): Place => {
  const load = loads[`${folder}/index.tsx`];
  if (!load) throw new Error(`no screen in ${folder}`);
  return { ...named, load, ahead: aheads[named.pattern] ?? (() => undefined) };
};

export const places: readonly Place[] = names_by_folder
  .flatMap(([folder, names]) => names.map((named) => place_of(folder, named)))
  .sort((a, b) => (a.order ?? 0) - (b.order ?? 0));
