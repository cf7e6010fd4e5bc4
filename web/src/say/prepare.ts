// What a drink that is prepared is made from, in the house's own units.
import type { Bowl } from "../api/types";
import type { Habits } from "./habits";
import { weight } from "./say";

/** "319 g stout and 16 g raisins; raisins steeped in it and strained off". */
export const made_from = ({ from, how }: Bowl["to_prepare"][number], habits: Habits): string =>
  `${from.map(({ ingredient, mass_g }) => `${weight(mass_g, habits)} ${ingredient}`).join(" and ")}; ${how}`;
