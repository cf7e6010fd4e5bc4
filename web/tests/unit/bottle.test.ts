import { describe, expect, it } from "vitest";
import { further_lines, further_text, label_of } from "../../src/state/bottle";

describe("an own bottle", () => {
  it("says in the words of a bake file what its label says", () => {
    const bottle = { strength_percent_vol: 11.5, sugar_g_per_L: 8, price: "9.60", currency: "EUR", size_mL: 750, size_g: 0, toml: 'ph = 3.4\nacid = "6 g/L"' };
    expect(label_of(bottle)).toEqual({ strength: "11.5 % vol", sugar: "8 g/L", price: "9.60 EUR / 750 mL", ph: 3.4, acid: "6 g/L" });
  });
  it("says nothing of what is not known", () => {
    expect(label_of({ strength_percent_vol: null, sugar_g_per_L: null, price: "", currency: "", size_mL: 0, size_g: 0, toml: "" })).toEqual({});
  });
  it("keeps its further lines through a change", () => {
    const lines = { ph: 3.4, acid: '6 g/L as "tartaric"' };
    expect(further_lines(further_text({ ph: 3.4, acid: "6 g/L as tartaric" }))).toEqual({ ph: 3.4, acid: "6 g/L as tartaric" });
    expect(further_text(lines)).toContain('\\"tartaric\\"');
  });
});
