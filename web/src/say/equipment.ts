// An oven, a fridge or a mixer of the house in words; as src/service/house/equipment.cpp says it.
import type { EquipmentRecord } from "../api/types";
import { type Kind, lessons_of } from "../state/equipment";
import { date, from_utc } from "./clock";
import type { Habits } from "./habits";

const lessons: Record<Kind, string> = { oven: "bake", fridge: "load", mixer: "dough" };

/** "learned 28 Nov from 2 bakes"; empty where nothing was measured. */
export function learned_from(one: EquipmentRecord, habits: Habits): string {
  const all = lessons_of(one);
  const last = all[all.length - 1];
  if (!last) return "";
  const at = from_utc(last.at);
  return `learned ${at === undefined ? last.at : date(at, habits)} from ${all.length} ${lessons[one.what]}${all.length === 1 ? "" : "s"}`;
}
