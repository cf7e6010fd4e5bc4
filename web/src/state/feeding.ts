// A feeding of a levain, ripe : flour : water.
import { number } from "../say/typed";

/** From so much on a levain is weighed to the gram. */
const to_the_gram_g = 100;

/** The three weights of a feeding "1:2:1" that make up `total_g`, as a scale shows them; nothing for what is no such ratio. */
export function fed_weights(feed: string, total_g: number): { ripe_g: number; flour_g: number; water_g: number } | undefined {
  const parts = feed.split(":").map((part) => number(part));
  const [ripe = Number.NaN, flour = Number.NaN, water = Number.NaN] = parts.map((p) => (p.ok ? p.value : Number.NaN));
  const sum = ripe + flour + water;
  if (parts.length !== 3 || !(sum > 0)) return undefined;
  const steps = total_g < to_the_gram_g ? 10 : 1;
  const [all, of_ripe, of_water] = [total_g, (total_g * ripe) / sum, (total_g * water) / sum].map((g) => Math.round(steps * g)) as [number, number, number];
  // What is left over by rounding is flour, so that the parts are the whole.
  return { ripe_g: of_ripe / steps, flour_g: (all - of_ripe - of_water) / steps, water_g: of_water / steps };
}
