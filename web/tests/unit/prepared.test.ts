import { describe, expect, it } from "vitest";
import { type Form, lines, remove_line } from "../../src/state/bake";
import { as_bought, made_of, prepare, preparing } from "../../src/state/prepared";

const mead: Form = {
  bowl: { "white bread flour": "100 %", liquid: "70 %", "dry mead": "50 % of the liquid", water: "50 % of the liquid" },
  bottle: { "dry mead": { strength: "11.5 % vol" } },
  weighed: { "dry mead": "990 g" },
  stage: [{ do: "mix", order: ["white bread flour", "dry mead", "water"] }, { do: "bulk" }],
};

describe("a drink prepared", () => {
  const simmered = prepare(mead, "dry mead", { ...as_bought, flat: true, simmer_to: "60 %" });
  const line = "flat, simmered dry mead";

  it("has a name of its own wherever the file says it, and keeps its bottle", () => {
    expect(lines(simmered).map((l) => l.name)).toEqual(["white bread flour", line, "water"]);
    expect(simmered.prepared).toEqual({ [line]: { of: "dry mead", flat: true, simmer_to: "60 %" } });
    expect(simmered.stage).toEqual([{ do: "mix", order: ["white bread flour", line, "water"] }, { do: "bulk" }]);
    expect(simmered.weighed).toEqual({ [line]: "990 g" });
    expect(simmered.bottle).toBe(mead.bottle);
    expect((simmered.bowl as Record<string, string>).liquid).toBe("70 %");
    expect(made_of(simmered, line)).toBe("dry mead");
    expect(preparing(simmered, line)).toEqual({ ...as_bought, flat: true, simmer_to: "60 %" });
  });
  it("becomes the drink of the bottle again", () => {
    expect(prepare(simmered, line, as_bought)).toEqual(mead);
  });
  it("keeps what the page has no field for", () => {
    const until = { ...simmered, prepared: { [line]: { of: "dry mead", simmer_until: "1 % vol", simmer_to: "60 %" } } };
    const thinned = prepare(until, line, { ...as_bought, thin_to: "6 % vol" });
    expect(thinned.prepared).toEqual({ "thinned dry mead": { of: "dry mead", simmer_until: "1 % vol", thin_to: "6 % vol" } });
  });
  it("has what is steeped in it with its dose", () => {
    const steeped = prepare(mead, "dry mead", { ...as_bought, steep: "raisins", dose: "5 %" });
    expect(steeped.prepared).toEqual({ "steeped dry mead": { of: "dry mead", steep: "raisins", dose: "5 %" } });
    expect(prepare(steeped, "steeped dry mead", as_bought)).toEqual(mead);
  });
  it("goes out of the bowl with its bottle", () => {
    const without = remove_line(simmered, line);
    expect([without.prepared, without.bottle, without.weighed]).toEqual([undefined, undefined, undefined]);
  });
  it("stays as it is where its new name is another line's", () => {
    const both = { ...simmered, bowl: { ...(simmered.bowl as object), "dry mead": "3 %" } };
    expect(prepare(both, line, as_bought)).toBe(both);
  });
});
