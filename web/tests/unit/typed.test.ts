import { describe, expect, it } from "vitest";
import { number, warmth, weight } from "../../src/say/typed";
import { usual } from "../../src/say/habits";

const value = (read: { ok: boolean; value?: number; why?: string }) => (read.ok ? read.value : read.why);

describe("what a baker types", () => {
  it("takes comma and point", () => {
    expect(value(number("70.5"))).toBe(70.5);
    expect(value(number(" 70,5 "))).toBe(70.5);
    expect(value(number(".5"))).toBe(0.5);
    expect(value(number("1200"))).toBe(1200);
  });
  it("refuses a comma that can be read two ways, with both ways to write it", () => {
    expect(value(number("1,200"))).toBe('"1,200" can be read two ways. Write 1200 or 1.200.');
  });
  it("refuses what is no number", () => {
    for (const text of ["", "abc", "1e5", "NaN", "Infinity", "1.2.3", "--1", "0x10"]) expect(number(text).ok, text).toBe(false);
  });
  it("reads weights in any unit, and a bare one in the baker's own", () => {
    expect(value(weight("1,5 kg", usual))).toBe(1500);
    expect(value(weight("990", usual))).toBe(990);
    expect(value(weight("16", { ...usual, weight: "oz" }))).toBeCloseTo(453.59237, 9);
    expect(value(weight("2 lb", usual))).toBeCloseTo(907.18474, 9);
    expect(weight("3 cups", usual).ok).toBe(false);
    expect(weight("-4", usual).ok).toBe(false);
  });
  it("reads temperatures in either degrees", () => {
    expect(value(warmth("24", usual))).toBe(24);
    expect(value(warmth("75", { ...usual, warmth: "F" }))).toBeCloseTo(23.889, 3);
    expect(value(warmth("24 °C", { ...usual, warmth: "F" }))).toBe(24);
    expect(warmth("24 K", usual).ok).toBe(false);
  });
});
