import { describe, expect, it } from "vitest";
import { after, date, exact_moment, forecast_moment, from_utc, hours_between, iso, moment_of, now, short_forecast, to_utc, type Moment } from "../../src/say/clock";
import { usual } from "../../src/say/habits";

const half_day = { ...usual, clock: "12" as const };
const mixed = moment_of("2026-11-28T07:00:00") as Moment;

describe("the clock of the bakery", () => {
  it("reads local times with and without seconds and refuses others", () => {
    expect(iso(mixed)).toBe("2026-11-28T07:00");
    expect(moment_of("07:00")).toBeUndefined();
    expect(moment_of("")).toBeUndefined();
  });
  // 28 November 2026 is a Saturday: ISO 8601 week 48, day 6.
  it("knows the weekday", () => {
    expect(exact_moment(mixed, usual)).toBe("Sat 07:00");
    expect(date(mixed)).toBe("Sat 28 Nov 2026");
  });
  it("says a forecast in quarters of an hour", () => {
    expect(forecast_moment(after(mixed, 9.71), usual)).toBe("Sat 16:45");
    expect(forecast_moment(after(mixed, 21.5), half_day)).toBe("Sun 4:30 am");
    expect(exact_moment(after(mixed, 5), half_day)).toBe("Sat 12:00 pm");
    expect(exact_moment(after(mixed, 17), half_day)).toBe("Sun 12:00 am");
  });
  it("leaves the weekday out on the same day", () => {
    expect(short_forecast(after(mixed, 3), mixed, usual)).toBe("10:00");
    expect(short_forecast(after(mixed, 20), mixed, usual)).toBe("Sun 03:00");
  });
  it("counts hours without a zone", () => {
    expect(hours_between(mixed, after(mixed, 30.5))).toBe(30.5);
  });
  it("takes the wall clock of the device", () => {
    expect(iso(now(new Date(2026, 10, 28, 7, 0)))).toBe("2026-11-28T07:00");
  });
});

describe("moments of the daybook", () => {
  it("are the wall clock of this device, there and back, also across a change of the clock", () => {
    for (const text of ["2026-11-28T07:00", "2026-03-29T12:00", "2026-10-25T12:00"]) {
      const at = moment_of(text) as Moment;
      expect(from_utc(to_utc(at))).toBe(at);
    }
    expect(to_utc(now(new Date("2026-11-28T06:00:00Z")))).toBe("2026-11-28T06:00:00Z");
    expect(from_utc("soon")).toBeUndefined();
  });
});
