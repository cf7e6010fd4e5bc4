import { describe, expect, it } from "vitest";
import { add_line, amount_parts, amount_step, amount_text, blank, lines, liquid, remove_line, set, set_amount, with_amount, with_masses, with_own_bottle, type Form } from "../../src/state/bake";
import { celsius_of, warmth_text } from "../../src/state/warmth";
import { differences } from "../../src/state/differences";
import { problem_at } from "../../src/screens/bake/problem";
import { usual } from "../../src/say/habits";

const mead: Form = {
  name: "Mead loaf",
  bowl: { "white bread flour": "100 %", liquid: "70 %", "dry mead": "50 % of the liquid", water: "50 % of the liquid", salt: "2 %", levain: "20 %" },
  bottle: { "dry mead": { strength: "11.5 % vol" } },
  weighed: { "dry mead": "990 g" },
  stage: [{ do: "mix", order: ["white bread flour", "dry mead", "water"] }],
};
const names = (form: Form) => lines(form).map((l) => l.name);

describe("a bake as an object", () => {
  it("lists the bowl in its order; the liquid is a total, not a line", () => {
    expect(names(mead)).toEqual(["white bread flour", "dry mead", "water", "salt", "levain"]);
    expect(liquid(mead)).toBe("70 %");
  });
  it("changes one thing and leaves the rest as it is", () => {
    const changed = set_amount(mead, "salt", "1.8 %");
    expect(lines(changed).find((l) => l.name === "salt")?.amount).toBe("1.8 %");
    expect(lines(mead).find((l) => l.name === "salt")?.amount).toBe("2 %");
    expect(names(changed)).toEqual(names(mead));
    expect(changed.bottle).toBe(mead.bottle);
  });
  it("puts a new line before another", () => {
    expect(names(add_line(mead, "honey", "1 tbsp", "salt"))).toEqual(["white bread flour", "dry mead", "water", "honey", "salt", "levain"]);
  });
  it("takes a line out with its bottle, its weighing and its place in the order", () => {
    const without = remove_line(mead, "dry mead");
    expect(names(without)).toEqual(["white bread flour", "water", "salt", "levain"]);
    expect(without.bottle).toBeUndefined();
    expect(without.weighed).toBeUndefined();
    expect((without.stage as { order: string[] }[])[0]?.order).toEqual(["white bread flour", "water"]);
  });
  it("takes a key away", () => {
    expect("weighed" in set(mead, "weighed", undefined)).toBe(false);
  });
  it("takes an own bottle with what its label says", () => {
    const form = with_own_bottle(blank, { name: "Saltings mead", like: "dry mead", label: { strength: "12 % vol" } });
    expect(form.ingredient).toEqual({ "Saltings mead": { like: "dry mead" } });
    expect(form.bottle).toEqual({ "Saltings mead": { strength: "12 % vol" } });
  });
});

describe("amounts", () => {
  it("are read in every unit the page offers, and written back the same", () => {
    for (const text of ["2 %", "50 % of the liquid", "900 g", "1.5 kg", "0.75 L", "1 tbsp", "rest of the liquid"]) {
      const parts = amount_parts(text);
      expect(parts && amount_text(parts.figure, parts.unit), text).toBe(text);
    }
  });
  it("leave to the text field what is written otherwise", () => {
    expect(amount_parts("a pinch")).toBeUndefined();
  });
  it("step finer where little matters", () => {
    expect(amount_step("%", 2)).toBe(0.1);
    expect(amount_step("%", 70)).toBe(5);
  });
});

describe("weights found by a match", () => {
  // The answer of `barm match examples/perry-loaf.toml --like examples/mead-loaf.toml`, rounded.
  it("become baker's percent of all flour; the flour is left alone", () => {
    const perry: Form = { bowl: { "white flour": "100 %", liquid: "75 %", "dyke perry": "rest of the liquid", salt: "1.9 %" } };
    const now = [
      { ingredient: "white bread flour", of_flour: 1 },
      { ingredient: "dyke perry", of_flour: 0.75 },
      { ingredient: "salt", of_flour: 0.019 },
    ];
    const matched = with_masses(
      perry,
      [
        { ingredient: "white bread flour", mass_g: 1986 },
        { ingredient: "dyke perry", mass_g: 1300 },
        { ingredient: "salt", mass_g: 37.734 },
        { ingredient: "water", mass_g: 107 },
      ],
      1986,
      now,
    );
    expect(matched.bowl).toEqual({ "white flour": "100 %", "dyke perry": "65.46 %", water: "5.39 %", salt: "1.9 %" });
  });
});

describe("warmth in a bake file", () => {
  it("is read and written in the baker's degrees", () => {
    expect(celsius_of("24 C")).toBe(24);
    expect(celsius_of("75 F")).toBeCloseTo(23.889, 3);
    expect(celsius_of("warm")).toBeUndefined();
    expect(warmth_text(24, { ...usual, warmth: "F" })).toBe("75.2 F");
  });
});

describe("two versions of a bake", () => {
  it("are told apart line by line", () => {
    const theirs = set(set_amount(mead, "salt", "2.2 %"), "pieces", 8);
    expect(differences(mead, theirs)).toEqual([
      { what: "salt", mine: "2 %", theirs: "2.2 %" },
      { what: "pieces", mine: "not there", theirs: "8" },
    ]);
  });
});

describe("the place of a problem", () => {
  const problem = { type: "", title: "", status: 400, code: "bad_input", detail: "no such thing", field: "/bake/bowl/half~1half ~0 rye" };
  it("is found by its JSON pointer (RFC 6901)", () => {
    expect(problem_at(problem, "bowl", "half/half ~ rye")).toBe("no such thing");
    expect(problem_at(problem, "bowl", "rye")).toBeUndefined();
  });
});

it("flour that is weighed says how much there is: no other size stands beside it", () => {
  const flours = new Set(["white bread flour"]);
  const form = { pieces: 2, piece: "900 g", bowl: { "white bread flour": "100 %", water: "70 %" } };
  const weighed = with_amount(form, "white bread flour", "1 kg", flours);
  expect(weighed).toEqual({ pieces: 2, bowl: { "white bread flour": "1 kg", water: "70 %" } });
  expect(with_amount(form, "water", "700 g", flours)).toHaveProperty("piece", "900 g");
});
