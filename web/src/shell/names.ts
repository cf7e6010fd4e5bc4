// The names of all screens: their addresses and where a link to each stands, as the name.json in the folder of each says. What
// fetches them is in places.ts.

export type Params = Record<string, string>;

export interface Named {
  pattern: string;
  title: string;
  /** Where a link stands: in the bar of a phone, in the rail of a desk only, or as a tab of a bake. */
  found?: "bar" | "rail" | "bake";
  /** Among the links beside it: the rail of a desk has those of the bar first. */
  order?: number;
}

/** By the folder of the screen. */
export const names_by_folder: readonly (readonly [folder: string, names: readonly Named[]])[] = Object.entries(
  import.meta.glob<readonly Named[]>("../screens/*/name.json", { eager: true, import: "default" }),
).map(([file, names]) => [file.replace("/name.json", ""), names]);

export const names: readonly Named[] = names_by_folder.flatMap(([, names]) => names).sort((a, b) => (a.order ?? 0) - (b.order ?? 0));
