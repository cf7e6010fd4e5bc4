import { describe, expect, it } from "vitest";
import { place_in_words } from "../../src/api/ask";

describe("where a refusal points", () => {
  it("is a line of a file, a thing with its unit, or nothing of the terminal", () => {
    expect(place_in_words("bake:2:23")).toBe("line 2");
    expect(place_in_words("prices:7")).toBe("line 7");
    expect(place_in_words("ripe_g")).toBe("ripe, g");
    expect(place_in_words("dough_C")).toBe("dough, °C");
    expect(place_in_words("dry mead")).toBe("dry mead");
    expect(place_in_words("--read")).toBe("");
  });
});
