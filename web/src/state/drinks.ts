// Which lines of a bowl are drinks.
import type { LarderListAnswer } from "../api/types";
import { type Form, bottle, lines } from "./bake";
import { made_of } from "./prepared";

export type Ingredients = LarderListAnswer["ingredients"];

export function drinks_in(form: Form, larder: Ingredients): string[] {
  const group = new Map(larder.flatMap((i) => [i.name, ...i.also].map((name) => [name, i.group] as const)));
  const own = (form.ingredient ?? {}) as Record<string, { like?: string; group?: string }>;
  const is_drink = (name: string) => (own[name]?.group ?? group.get(own[name]?.like ?? "") ?? group.get(name)) === "drink";
  return lines(form).map((line) => line.name).filter((name) => is_drink(made_of(form, name)) || Object.keys(bottle(form, name)).length > 0);
}
