// Every screen of the page: its address, its name, and where it is found. A screen is a folder of src/screens/ with a
// default export that takes the named parts of its address.
import type { ComponentType } from "preact";

export type Params = Record<string, string>;
export type Screen = ComponentType<{ params: Params }>;

export interface Place {
  pattern: string;
  title: string;
  load: () => Promise<{ default: Screen }>;
  /** Where a link stands: in the bar of a phone, in the rail of a desk only, or as a leaf of a bake. */
  found?: "bar" | "rail" | "bake";
}

export const places: readonly Place[] = [
  { pattern: "", title: "Today", load: () => import("../screens/today"), found: "bar" },
  { pattern: "bakes", title: "Bakes", load: () => import("../screens/bakes"), found: "bar" },
  { pattern: "cultures", title: "Cultures", load: () => import("../screens/cultures"), found: "bar" },
  { pattern: "larder", title: "Larder", load: () => import("../screens/larder"), found: "bar" },
  { pattern: "compare", title: "Compare two bakes", load: () => import("../screens/compare"), found: "rail" },
  { pattern: "tests", title: "Test bakes", load: () => import("../screens/tests"), found: "rail" },
  { pattern: "trash", title: "Trash", load: () => import("../screens/trash"), found: "rail" },
  { pattern: "settings", title: "House", load: () => import("../screens/settings"), found: "rail" },
  { pattern: "guide", title: "Guide", load: () => import("../screens/guide"), found: "rail" },
  { pattern: "guide/:page", title: "Guide", load: () => import("../screens/guide") },
  { pattern: "more", title: "More", load: () => import("../screens/more") },
  { pattern: "first", title: "My first bake", load: () => import("../screens/first") },
  { pattern: "new", title: "New bake", load: () => import("../screens/new_bake") },
  { pattern: "new/:id", title: "New bake", load: () => import("../screens/unsaved_bake") },
  { pattern: "test/:id", title: "Test bake", load: () => import("../screens/test") },
  { pattern: "culture/:id", title: "Culture", load: () => import("../screens/culture") },
  { pattern: "bake/:id", title: "Recipe", load: () => import("../screens/bake"), found: "bake" },
  { pattern: "bake/:id/bench", title: "Bench", load: () => import("../screens/bench"), found: "bake" },
  { pattern: "bake/:id/read", title: "Read", load: () => import("../screens/read"), found: "bake" },
  { pattern: "bake/:id/drink", title: "Drink", load: () => import("../screens/drink"), found: "bake" },
  { pattern: "bake/:id/rescue", title: "Rescue", load: () => import("../screens/rescue") },
  { pattern: "bake/:id/loaf", title: "Loaf", load: () => import("../screens/loaf"), found: "bake" },
  { pattern: "bake/:id/sell", title: "Sell", load: () => import("../screens/sell"), found: "bake" },
];
