import { expect, test } from "vitest";
import { fed_weights } from "../../src/state/feeding";

test("the three weights of a feeding are the whole, as a scale shows them", () => {
  expect(fed_weights("1:2:1", 617)).toEqual({ ripe_g: 154, flour_g: 309, water_g: 154 });
  expect(fed_weights("1:5:5", 40)).toEqual({ ripe_g: 3.6, flour_g: 18.2, water_g: 18.2 });
  for (const feed of ["1:1:1", "1:2:1", "1:3:2", "1:5:5", "2:7:3.5"]) {
    for (let total = 20; total < 1500; total += 7) {
      const { ripe_g, flour_g, water_g } = fed_weights(feed, total) ?? { ripe_g: 0, flour_g: 0, water_g: 0 };
      expect(ripe_g + flour_g + water_g, `${feed} of ${total}`).toBeCloseTo(total, 6);
      expect(Math.min(ripe_g, flour_g, water_g)).toBeGreaterThan(0);
    }
  }
});

test("what is no ratio of three has no weights", () => {
  for (const feed of ["", "1:2", "1:2:1:1", "a:b:c", "0:0:0"]) expect(fed_weights(feed, 300)).toBeUndefined();
});
