// The names of all screens: their addresses and where a link to each stands. What fetches them is in places.ts.

export type Params = Record<string, string>;

export interface Named {
  pattern: string;
  title: string;
  /** Where a link stands: in the bar of a phone, in the rail of a desk only, or as a tab of a bake. */
  found?: "bar" | "rail" | "bake";
}

export const names: readonly Named[] = [
  { pattern: "", title: "Today", found: "bar" },
  { pattern: "bakes", title: "Bakes", found: "bar" },
  { pattern: "cultures", title: "Cultures", found: "bar" },
  { pattern: "larder", title: "Larder", found: "bar" },
  { pattern: "day", title: "Plan the day", found: "rail" },
  { pattern: "compare", title: "Compare two bakes", found: "rail" },
  { pattern: "tests", title: "Test bakes", found: "rail" },
  { pattern: "equipment", title: "Ovens, fridges, mixers", found: "rail" },
  { pattern: "trash", title: "Trash", found: "rail" },
  { pattern: "settings", title: "House", found: "rail" },
  { pattern: "guide", title: "Guide", found: "rail" },
  { pattern: "guide/:page", title: "Guide" },
  { pattern: "more", title: "More" },
  { pattern: "first", title: "My first bake" },
  { pattern: "new", title: "New bake" },
  { pattern: "new/:id", title: "New bake" },
  { pattern: "test/:id", title: "Test bake" },
  { pattern: "culture/:id", title: "Culture" },
  { pattern: "bake/:id", title: "Recipe", found: "bake" },
  { pattern: "bake/:id/bench", title: "Bench", found: "bake" },
  { pattern: "bake/:id/read", title: "Read", found: "bake" },
  { pattern: "bake/:id/drink", title: "Drink", found: "bake" },
  { pattern: "bake/:id/show", title: "Show" },
  { pattern: "bake/:id/rescue", title: "Rescue" },
  { pattern: "bake/:id/loaf", title: "Loaf", found: "bake" },
  { pattern: "bake/:id/sell", title: "Sell", found: "bake" },
];
