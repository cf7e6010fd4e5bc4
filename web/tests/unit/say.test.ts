import { describe, expect, it } from "vitest";
import { odds, percent, plain, scale_figure, span, times, two_figures, volume, warmth, weight } from "../../src/say/numbers";
import { celsius, from_fahrenheit, from_ounces, grams, hours, to_fahrenheit, to_ounces } from "../../src/say/units";
import { usual } from "../../src/say/habits";

const comma = { ...usual, decimal: "," as const };
const imperial = { ...usual, weight: "oz" as const, warmth: "F" as const };

describe("units", () => {
  // NIST Special Publication 811, appendix B.8: 1 oz avoirdupois = 28.349 523 125 g, exactly.
  it("takes the ounce of the 1959 agreement", () => {
    expect(from_ounces(16)).toBeCloseTo(453.59237, 9);
    expect(to_ounces(grams(28.349523125))).toBe(1);
  });
  // The fixed points of the two scales.
  it("turns degrees both ways", () => {
    expect(to_fahrenheit(celsius(0))).toBe(32);
    expect(to_fahrenheit(celsius(100))).toBe(212);
    expect(from_fahrenheit(-40)).toBe(-40);
  });
});

describe("numbers as a baker says them", () => {
  it("weighs whole grams from ten, tenths from one, kilograms from ten", () => {
    expect(weight(grams(1079.42), usual)).toBe("1079 g");
    expect(weight(grams(7.249), usual)).toBe("7.2 g");
    expect(weight(grams(0.356), usual)).toBe("0.36 g");
    expect(weight(grams(0), usual)).toBe("0 g");
    expect(weight(grams(12400), usual)).toBe("12.4 kg");
  });
  it("weighs in ounces and pounds for who asks", () => {
    expect(weight(grams(1000), imperial)).toBe("35.3 oz");
    expect(weight(grams(20), imperial)).toBe("0.71 oz");
    expect(weight(grams(5000), imperial)).toBe("11.0 lb");
    expect(scale_figure(grams(28.349523125), imperial)).toBe("1.00");
  });
  it("writes the decimal sign of the house", () => {
    expect(weight(grams(7.25), comma)).toBe("7,3 g");
    expect(percent(0.0184, comma)).toBe("1,8 %");
  });
  it("says half degrees Celsius and whole degrees Fahrenheit", () => {
    expect(warmth(celsius(24.3), usual)).toBe("24.5 °C");
    expect(warmth(celsius(24.1), usual)).toBe("24 °C");
    expect(warmth(celsius(24), imperial)).toBe("75 °F");
  });
  it("says times in quarters of an hour, as the terminal does", () => {
    expect(span(hours(2.22))).toBe("2 h 15");
    expect(span(hours(0.05))).toBe("under 15 min");
    expect(span(hours(0.75))).toBe("45 min");
    expect(span(hours(3.01))).toBe("3 h");
    expect(span(hours(51.6))).toBe("52 h");
    expect(span(hours(-1.5))).toBe("-1 h 30");
  });
  it("says chances as small fractions", () => {
    expect(odds(0.02, 400)).toBe("1 in 50");
    expect(odds(0.8, 400)).toBe("4 in 5");
    expect(odds(0.98, 400)).toBe("49 in 50");
    expect(odds(0, 60)).toBe("under 1 in 60");
    // Nobody counts beyond a hundred.
    expect(odds(0, 400)).toBe("under 1 in 100");
    expect(odds(1, 400)).toBe("over 99 in 100");
    expect(odds(1 / 400, 400)).toBe("under 1 in 100");
    expect(odds(119 / 120, 400)).toBe("over 99 in 100");
    expect(odds(1e-5, 400)).toBe("under 1 in 100");
    expect(odds(1 - 1e-5, 400)).toBe("over 99 in 100");
  });
  it("names a rise", () => {
    expect(times(2, usual)).toBe("doubled");
    expect(times(1.5, usual)).toBe("risen by half");
    expect(times(1.8, usual)).toBe("1.8 times");
  });
  it("keeps two figures that matter", () => {
    expect(two_figures(36.65, usual)).toBe("37");
    expect(two_figures(0.0344, usual)).toBe("0.034");
    expect(two_figures(9.96, usual)).toBe("10");
  });
  it("says small volumes in tenths", () => {
    expect(volume(7.3, usual)).toBe("7.3 mL");
    expect(volume(1087.8, usual)).toBe("1088 mL");
  });
  it("never shows what is no number", () => {
    expect(() => plain(Number.NaN, 1, usual)).toThrow(RangeError);
    expect(() => weight(grams(Infinity), usual)).toThrow(RangeError);
  });
  it("has no minus nothing", () => {
    expect(plain(-0.001, 1, usual)).toBe("0.0");
  });
});
