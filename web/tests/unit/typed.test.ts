import { describe, expect, it } from "vitest";
import { as_kept } from "../../src/parts/measure";
import { clock_time, count, dough_warmth, height, lasting, number, percent, percent_up_to, ph, since_mixing, warmth, weight } from "../../src/say/typed";
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

describe("what a field's unit leaves out", () => {
  const h = (text: string) => {
    const read = lasting(text);
    return read.ok ? Math.round(1000 * read.value) / 1000 : read.why;
  };

  it("reads a length of time however it is said", () => {
    for (const [text, hours] of [["12", 12], ["12 h", 12], ["7h30", 7.5], ["7:30", 7.5], ["7,5", 7.5], ["90 min", 1.5], ["2 days", 48]] as const) expect(h(text), text).toBe(hours);
    expect(h("7:75")).toMatch(/60 minutes/);
    expect(h("5 parsecs")).toMatch(/no length of time/);
    expect(h("-2")).toMatch(/below zero/);
  });

  it("says of what is no number that it is none", () => {
    for (const read of [weight("abc", usual), warmth("abc", usual), lasting("abc")]) expect(read.ok ? "" : read.why).toMatch(/"abc" is no number/);
    for (const text of ["", "70.5", "x"]) expect(count(text, 40, 1)).toEqual({ ok: false, why: "A whole number from 1 to 40." });
  });

  it("refuses of a dough what the daybook would refuse", () => {
    expect(ph("4.4")).toEqual({ ok: true, value: 4.4 });
    expect(ph("44").ok).toBe(false);
    expect(dough_warmth("24", usual)).toEqual({ ok: true, value: 24 });
    expect(dough_warmth("75 F", usual).ok).toBe(true);
    expect(dough_warmth("240", usual).ok).toBe(false);
    expect(dough_warmth("0", { ...usual, warmth: "F" }).ok).toBe(false);
  });

  it("reads a share with or without its sign", () => {
    for (const text of ["6.8", "6,8", "6.8 %", "6.8%"]) expect(percent(text)).toEqual({ ok: true, value: 6.8 });
    expect(percent("-1").ok).toBe(false);
    expect(percent_up_to(80)("81 %")).toEqual({ ok: false, why: "At most 80 %." });
  });

  it("reads the clock of both habits", () => {
    for (const [text, minutes] of [["7", 420], ["7:30", 450], ["730", 450], ["19.05", 1145], ["7h30", 450], ["7 pm", 1140], ["12 am", 0], ["12:15 pm", 735]] as const) {
      expect(clock_time(text), text).toEqual({ ok: true, value: minutes });
    }
    for (const text of ["24:00", "7:61", "13 pm", "soon", ""]) expect(clock_time(text).ok, text).toBe(false);
  });

  it("keeps a recipe's text with the unit that the field names", () => {
    const fahrenheit = { ...usual, warmth: "F" as const };
    expect(as_kept("24", "C", usual)).toEqual({ ok: true, value: "24 C" });
    expect(as_kept("75", "C", fahrenheit)).toEqual({ ok: true, value: "75 F" });
    expect(as_kept("24 C", "C", fahrenheit)).toEqual({ ok: true, value: "75.2 F" });
    expect(as_kept("7:30", "h", usual)).toEqual({ ok: true, value: "7.5 h" });
    expect(as_kept("2 days", "h", usual)).toEqual({ ok: true, value: "2 days" });
    expect(as_kept("11.5", "% vol", usual)).toEqual({ ok: true, value: "11.5 % vol" });
    expect(as_kept("6 g/L as tartaric", "g/L", usual)).toEqual({ ok: true, value: "6 g/L as tartaric" });
    expect(as_kept(" ", "h", usual)).toEqual({ ok: true, value: undefined });
    expect(as_kept("warm", "C", usual).ok).toBe(false);
  });
});

it("a height, a count and the hours of a test bake have their ends", () => {
  expect(height("63 mm")).toEqual({ ok: true, value: 63 });
  for (const wrong of ["-5", "0", "99999", "6.3 cm", ""]) expect(height(wrong).ok).toBe(false);
  expect(count("12", 20)).toEqual({ ok: true, value: 12 });
  for (const wrong of ["-5", "1.5", "21", "abc"]) expect(count(wrong, 20).ok).toBe(false);
  expect(since_mixing("36").ok).toBe(true);
  expect(since_mixing("2000").ok).toBe(false);
});
