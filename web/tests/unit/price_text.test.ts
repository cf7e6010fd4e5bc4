import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { entries, with_entry, with_value, without_entry } from "../../src/state/price_text";

const example = readFileSync(new URL("../../../examples/marsh-prices.toml", import.meta.url), "utf8");
const of = (text: string, section: string) => entries(text).filter((e) => e.section === section);

describe("the price file as a form", () => {
  it("finds every entry with its values", () => {
    expect(of(example, "buy").map((e) => e.values.what)).toContain("dry mead");
    expect(of(example, "work")[0]?.values).toEqual({ hourly: "18.50 EUR" });
    expect(of(example, "work.step").length).toBe(6);
    expect(entries(example)[0]?.values.currency).toBe("EUR");
  });

  it("changes one value and nothing else, remarks stay", () => {
    const [flour] = of(example, "buy");
    const changed = with_value(example, flour as never, "waste", "2 %");
    expect(changed).toBe(example.replace('waste = "0.5 %"', 'waste = "2 %"'));
    expect(with_value(changed, flour as never, "waste", "0.5 %")).toBe(example);
  });

  it("adds a value, takes one out", () => {
    const rye = of(example, "buy").find((e) => e.values.what === "rye flour");
    const more = with_value(example, rye as never, "waste", "1 %");
    expect(of(more, "buy").find((e) => e.values.what === "rye flour")?.values.waste).toBe("1 %");
    const again = of(more, "buy").find((e) => e.values.what === "rye flour");
    expect(with_value(more, again as never, "waste", undefined)).toBe(example);
  });

  it("adds an entry after those of its kind, and takes it out", () => {
    const more = with_entry(example, "wrap", { what: "string", price: "4.00 EUR", holds: "1000" });
    expect(of(more, "wrap").map((e) => e.values.what)).toEqual(["paper bag", "label", "string"]);
    expect(more).toContain("holds = 1000");
    const last = of(more, "wrap").at(-1);
    expect(of(without_entry(more, last as never), "wrap").length).toBe(2);
  });
});
