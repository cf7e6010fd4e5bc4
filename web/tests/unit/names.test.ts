// The links of the page stand in the order in which they are used, whichever folder their names come from.
import { describe, expect, it } from "vitest";
import { names } from "../../src/shell/names";

const found = (...where: string[]) => names.filter((one) => where.includes(one.found ?? "")).map((one) => one.title);

describe("the names of the screens", () => {
  it("stand in the bar, and at a desk before those of the rail", () => {
    expect(found("bar")).toEqual(["Today", "Bakes", "Cultures", "Larder"]);
    expect(found("bar", "rail").slice(0, 5)).toEqual(["Today", "Bakes", "Cultures", "Larder", "Plan the day"]);
  });
  it("are the tabs of a bake", () => {
    expect(found("bake")).toEqual(["Recipe", "Bench", "Read", "Drink", "Loaf", "Sell"]);
  });
  it("have an address each", () => {
    expect(new Set(names.map((one) => one.pattern)).size).toBe(names.length);
    expect(names.length).toBeGreaterThan(20);
  });
});
