// The house's own ovens, fridges and mixers, as the daybook keeps them: a line for each thing one can do.
import type { EquipmentRecord, EquipmentRecordList } from "../api/types";
import { useAnswer } from "../api/use";
import { type Form, oven } from "./bake";

export type Kind = EquipmentRecord["what"];

/** All of a kind; none while nobody answers. */
export function useOwn(what: Kind): readonly EquipmentRecord[] {
  const { answer } = useAnswer<EquipmentRecordList>("/api/equipment", ["equipment"]);
  return (answer?.equipment ?? []).filter((one) => one.what === what);
}

/** The name of the only one there is; empty where there is none or more than one. */
export const the_only = (all: readonly EquipmentRecord[]) => (all.length === 1 ? (all[0]?.title ?? "") : "");

/** Another text once one of them was changed: what rests on them is asked anew. */
export const as_they_stand = (all: readonly EquipmentRecord[]) => all.map((one) => `${one.id} ${one.revision}`).join();

/** What stands behind `key =` in its lines; quotes are taken off a text. */
export function line_of(toml: string, key: string): string | undefined {
  for (const line of toml.split("\n")) {
    const [, name, value] = /^\s*(\w+)\s*=\s*(.*?)\s*$/.exec(line) ?? [];
    if (name === key && value !== undefined) return value.replace(/^"(.*)"$/, "$1");
  }
  return undefined;
}

/** The lines with another value of a key, as TOML has it; without one the line goes. */
export function with_line(toml: string, key: string, value: string | undefined): string {
  const others = toml.split("\n").filter((line) => line.trim() !== "" && !new RegExp(`^\\s*${key}\\s*=`).test(line));
  return [...others, ...(value === undefined ? [] : [`${key} = ${value}`])].map((line) => `${line}\n`).join("");
}

export interface Lesson {
  at: string;
  bake: string;
}

/** What it was learned from, the oldest first. */
export function lessons_of({ measured }: Pick<EquipmentRecord, "measured">): Lesson[] {
  if (measured === "") return [];
  const list: unknown = JSON.parse(measured);
  return Array.isArray(list) ? (list as Lesson[]) : [];
}

/** The oven that a bake goes into: the one it names, else the only one. */
const its_oven = (form: Form, ovens: readonly EquipmentRecord[]) => {
  const name = String(oven(form).name ?? "").toLowerCase();
  return name === "" ? (ovens.length === 1 ? ovens[0] : undefined) : ovens.find((one) => one.title.toLowerCase() === name);
};

const most_loads = 12;

/** How many loads the pieces of a bake make, as src/service/oven/asked.cpp counts them; 1 where nobody said how many go in. */
export function loads_of(form: Form, ovens: readonly EquipmentRecord[]): number {
  const pieces = Number(form.pieces ?? 0);
  const { loaves, holds } = oven(form);
  const at_once = Number(loaves ?? holds ?? line_of(its_oven(form, ovens)?.toml ?? "", "holds") ?? 0);
  return at_once > 0 && pieces > at_once ? Math.min(most_loads, Math.ceil(pieces / at_once)) : 1;
}
