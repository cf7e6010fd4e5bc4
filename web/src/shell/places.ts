// Every screen of the page by its address. A screen is a folder of src/screens/ with a default export that takes the named parts of
// its address; it is fetched when it is gone to.
import type { ComponentType } from "preact";
import { ask_ahead } from "../api/ask";
import { read_ahead } from "../api/bakes";
import { draft } from "../state/drafts";
import { readings_of_bake } from "../state/known_readings";
import { type Named, type Params, names } from "./names";

export type Screen = ComponentType<{ params: Params }>;
type Load = () => Promise<{ default: Screen }>;

export interface Place extends Named {
  load: Load;
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

const loads: Readonly<Record<string, Load>> = {
  "": () => import("../screens/today"),
  "bakes": () => import("../screens/bakes"),
  "cultures": () => import("../screens/cultures"),
  "larder": () => import("../screens/larder"),
  "day": () => import("../screens/day"),
  "compare": () => import("../screens/compare"),
  "tests": () => import("../screens/tests"),
  "equipment": () => import("../screens/equipment"),
  "trash": () => import("../screens/trash"),
  "settings": () => import("../screens/settings"),
  "guide": () => import("../screens/guide"),
  "guide/:page": () => import("../screens/guide"),
  "more": () => import("../screens/more"),
  "first": () => import("../screens/first"),
  "new": () => import("../screens/new_bake"),
  "new/:id": () => import("../screens/unsaved_bake"),
  "test/:id": () => import("../screens/test"),
  "culture/:id": () => import("../screens/culture"),
  "bake/:id": () => import("../screens/bake"),
  "bake/:id/bench": () => import("../screens/bench"),
  "bake/:id/read": () => import("../screens/read"),
  "bake/:id/drink": () => import("../screens/drink"),
  "bake/:id/show": () => import("../screens/show"),
  "bake/:id/rescue": () => import("../screens/rescue"),
  "bake/:id/loaf": () => import("../screens/loaf"),
  "bake/:id/sell": () => import("../screens/sell"),
};

export const places: readonly Place[] = names.map((named) => {
  const load = loads[named.pattern];
  if (!load) throw new Error(`no screen for "${named.pattern}"`);
  return { ...named, load, ahead: aheads[named.pattern] ?? (() => undefined) };
});
