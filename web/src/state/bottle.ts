// An own bottle of the daybook, as the [bottle] table of a bake file says it.
import type { BottleRecord } from "../api/types";

export const own_name = (bottle: Pick<BottleRecord, "title" | "ingredient">) => bottle.title || bottle.ingredient;

/** The lines `key = "text"` and `key = number` of a bottle's further table. */
export function further_lines(toml: string): Record<string, string | number> {
  const out: Record<string, string | number> = {};
  for (const line of toml.split("\n")) {
    const found = /^\s*(\w+)\s*=\s*(?:"([^"]*)"|([\d.]+))/.exec(line);
    const [, key, text, number] = found ?? [];
    if (key !== undefined) out[key] = text ?? Number(number);
  }
  return out;
}

export function further_text(lines: Readonly<Record<string, unknown>>): string {
  return Object.entries(lines)
    .map(([key, value]) => `${key} = ${typeof value === "number" ? value : JSON.stringify(String(value))}`)
    .join("\n");
}

type Label = Pick<BottleRecord, "strength_percent_vol" | "sugar_g_per_L" | "price" | "currency" | "size_mL" | "size_g" | "toml">;

/** What its label says, in the keys and words of a bake file. */
export function label_of(bottle: Label): Record<string, string | number> {
  const size = bottle.size_mL > 0 ? `${bottle.size_mL} mL` : bottle.size_g > 0 ? `${bottle.size_g} g` : undefined;
  return {
    ...(bottle.strength_percent_vol === null ? {} : { strength: `${bottle.strength_percent_vol} % vol` }),
    ...(bottle.sugar_g_per_L === null ? {} : { sugar: `${bottle.sugar_g_per_L} g/L` }),
    ...(bottle.price && size ? { price: `${bottle.price} ${bottle.currency || "EUR"} / ${size}` } : {}),
    ...further_lines(bottle.toml),
  };
}
