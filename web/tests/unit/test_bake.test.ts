import { describe, expect, it } from "vitest";
import { drawn_as } from "../../src/screens/test/curves";
import { causes, doughs_for, file_of, fresh, with_cause } from "../../src/state/test_bake";

describe("doughs made from ticks", () => {
  it("holds each suspect alone beside plain water", () => {
    expect(doughs_for(["sulphite", "acid"]).map((d) => [d.name, d.make])).toEqual([
      ["as it is", []],
      ["plain water", ["plain"]],
      ["sulphite alone", ["plain", "match sulphite"]],
      ["acid alone", ["plain", "match acid"]],
    ]);
  });

  it("asks about what cannot be stirred in by a dough with all the rest", () => {
    const last = doughs_for(["hops"]).at(-1);
    expect(last?.name).toBe("all but the hops");
    expect(last?.make).toContain("match sulphite");
  });

  it("brings and takes a dough with its tick, and leaves the baker's own", () => {
    const own = { name: "with honey", make: ["match sugar with honey"] };
    const begun = { causes: [], doughs: [...doughs_for([]), own] };
    const ticked = with_cause(begun, "alcohol", true);
    expect(ticked.causes).toEqual(["alcohol"]);
    expect(ticked.doughs.map((d) => d.name)).toEqual(["as it is", "plain water", "with honey", "alcohol alone"]);
    expect(with_cause(ticked, "alcohol", false)).toEqual(begun);
  });

  it("asks the server about the causes that are ticked, in one order", () => {
    const doc = fresh("b", "2026-11-28", 1, ["sulphite"]);
    expect(with_cause(doc, "alcohol", true).causes).toEqual(["alcohol", "sulphite"]);
    expect(file_of("t", "q", doc).causes).toEqual(["sulphite"]);
    expect(file_of("t", "q", fresh("b", "2026-11-28", 1))).not.toHaveProperty("causes");
    expect(causes.map((c) => c.cause)).toEqual(["alcohol", "sulphite", "acid", "sugar", "sorbate", "hops"]);
  });
});

it("no two of 32 doughs share a colour and a dash", () => {
  const drawn = Array.from({ length: 32 }, (_, i) => JSON.stringify(drawn_as(i)));
  expect(new Set(drawn).size).toBe(32);
});
