import { describe, expect, it } from "vitest";
import { moment_of, type Moment } from "../../src/say/clock";
import { day_text, usual_day, wrong_hours } from "../../src/state/day_text";
import { lanes_of } from "../../src/screens/day/lanes";

const now = moment_of("2026-11-27T05:00") as Moment;

describe("the text of a day", () => {
  it("says the house, the hours and the bakes by their ids", () => {
    const text = day_text({ ...usual_day("2026-11-28T08:00"), hands: 3, loaves: { b1: 6 } }, ["b1", "b2"], "Saturday", now);
    expect(text.split("\n")).toEqual([
      'name = "Saturday"', "begins = 2026-11-27T05:00:00", "bread = 2026-11-28T08:00:00",
      "[house]", "hands = 3", "mixers = 1", "bench = 2", "fridge = 24", "decks = 2", "loaves_on_a_deck = 8", 'night = "22:00 to 04:00"',
      "[[bake]]", 'file = "b1"', "loaves = 6", 'or = [{ fridge = "8 h to 16 h" }]',
      "[[bake]]", 'file = "b2"', 'or = [{ fridge = "8 h to 16 h" }]', "",
    ]);
  });
  it("says what has begun, and forgets what began on another day", () => {
    const done = { b1: { feed: "2026-11-27T04:10", "fold 2": "2026-11-27T04:55" }, b2: { feed: "2026-11-20T04:10" } };
    const text = day_text({ ...usual_day("2026-11-28T08:00"), done }, ["b1", "b2"], "Saturday", now);
    expect(text.match(/done = .*/g)).toEqual([`done = { "feed" = 2026-11-27T04:10:00, "fold 2" = 2026-11-27T04:55:00 }`]);
  });
  it("has no night and no fridge where there is none", () => {
    const text = day_text({ ...usual_day("2026-11-28T08:00"), night: null, fridge: 0 }, ["b1"], "Saturday", now);
    expect(text).not.toMatch(/night|or =/);
  });
});

describe("hours that cannot be planned", () => {
  const wrong = (bread: string, begins = "") => wrong_hours({ ...usual_day(bread), begins }, now);
  it("are told by their field", () => {
    expect(wrong("2026-11-28T08:00")).toEqual({});
    expect(wrong("2026-11-27T04:00").bread).toMatch(/No time is left/);
    expect(wrong_hours(usual_day("2026-11-27T05:05"), moment_of("2026-11-27T05:02") as Moment).bread).toMatch(/No time is left/);
    expect(wrong("2026-11-28T08:03").bread).toMatch(/five minutes/);
    expect(wrong("2026-12-05T08:00").bread).toMatch(/7 days/);
    expect(wrong("2026-11-28T08:00", "2026-11-26T08:00").begins).toMatch(/gone by/);
    expect(wrong("2026-11-28T08:00", "2026-11-28T08:00").bread).toMatch(/before the day begins/);
  });
});

describe("lanes", () => {
  const held = (bake: string, from: string, to: string, amount = 1) => ({ bake, step: "mix", from: `2026-11-27T${from}:00Z`, to: `2026-11-27T${to}:00Z`, amount });
  it("never let two bars meet, and take the first that is free", () => {
    const lanes = lanes_of({ what: "hands", of: 3, by: [held("a", "05:00", "06:00"), held("b", "05:30", "06:30"), held("a", "06:00", "07:00")] });
    expect(lanes.map((lane) => [lane.name, lane.bars.map((bar) => bar.bake).join("")])).toEqual([["hands 1", "aa"], ["hands 2", "b"], ["hands 3", ""]]);
  });
  it("give a step that takes two a bar in two, and a fridge one for each bread", () => {
    expect(lanes_of({ what: "deck", of: 2, by: [held("a", "05:00", "06:00", 2)] })).toHaveLength(2);
    expect(lanes_of({ what: "fridge", of: 24, by: [held("a", "05:00", "06:00", 12)] }).map((lane) => lane.name)).toEqual(["fridge"]);
  });
});
