// The two ways a baker reads a scale and a thermometer. Everything is kept in grams, degrees Celsius, hours and
// millimetres; only what is shown and typed is turned, and only here.

declare const unit: unique symbol;
type Branded<Name extends string> = number & { readonly [unit]: Name };

export type Grams = Branded<"g">;
export type Celsius = Branded<"C">;
export type Hours = Branded<"h">;

export const grams = (value: number) => value as Grams;
export const celsius = (value: number) => value as Celsius;
export const hours = (value: number) => value as Hours;

/** The international avoirdupois ounce, exact: 28.349523125 g. */
export const grams_in_ounce = 28.349523125;

export const to_ounces = (mass: Grams): number => mass / grams_in_ounce;
export const from_ounces = (ounces: number): Grams => grams(ounces * grams_in_ounce);
export const to_fahrenheit = (at: Celsius): number => at * 1.8 + 32;
export const from_fahrenheit = (at: number): Celsius => celsius((at - 32) / 1.8);
