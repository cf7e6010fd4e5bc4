// Everything that turns a quantity into words, in one place to import from.
import { habits as of_this_browser } from "../settings/settings";
import * as number from "./numbers";
import type { Habits } from "./habits";
import { celsius, grams, hours } from "./units";

export { hours } from "./units";
export { odds, plain, span, times, too_warm_or_cold, two_figures, percent_figure, percent, volume, warmth_apart, warmth_unit } from "./numbers";

// The server's answers are plain numbers with their unit in the key (mass_g, dough_C): here they become quantities.
export const weight = (mass_g: number, habits: Habits) => number.weight(grams(mass_g), habits);
export const scale_figure = (mass_g: number, habits: Habits) => number.scale_figure(grams(mass_g), habits);
export const warmth = (at_C: number, habits: Habits) => number.warmth(celsius(at_C), habits);
export const warmth_figure = (at_C: number, habits: Habits) => number.warmth_figure(celsius(at_C), habits);
export const warmth_read = (at_C: number, habits: Habits) => number.warmth_read(celsius(at_C), habits);
export const lasting = (time_h: number) => number.span(hours(time_h));

/** How this browser's baker reads numbers; following it redraws. */
export const useHabits = () => of_this_browser.value;
