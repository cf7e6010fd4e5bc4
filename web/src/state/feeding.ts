// A feeding of a levain, ripe : flour : water.
import { number } from "../say/typed";

/** The three weights of a feeding "1:2:1" that make up `total_g`; nothing for what is no such ratio. */
export function fed_weights(feed: string, total_g: number): { ripe_g: number; flour_g: number; water_g: number } | undefined {
  const parts = feed.split(":").map((part) => number(part));
  const [ripe = Number.NaN, flour = Number.NaN, water = Number.NaN] = parts.map((p) => (p.ok ? p.value : Number.NaN));
  const sum = ripe + flour + water;
  if (parts.length !== 3 || !(sum > 0)) return undefined;
  const of = (part: number) => Math.round((10 * total_g * part) / sum) / 10;
  return { ripe_g: of(ripe), flour_g: of(flour), water_g: of(water) };
}
