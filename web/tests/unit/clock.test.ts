import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { after, date, exact_moment, forecast_moment, from_utc, hour_of_day, hours_between, iso, moment_of, now, set_ahead, short_forecast, to_utc, type Moment } from "../../src/say/clock";
import { mixed_of } from "../../src/api/bakes";
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
    expect(date(mixed, { ...usual, dates: "month" })).toBe("Sat Nov 28, 2026");
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
  it("counts hours", () => {
    expect(hours_between(mixed, after(mixed, 30.5))).toBe(30.5);
    expect(hour_of_day(after(mixed, 0.25))).toBe(7.25);
    expect(hour_of_day(after(mixed, 24))).toBe(7);
  });
  it("takes the wall clock of the device", () => {
    vi.setSystemTime(new Date(2026, 10, 28, 7, 0));
    expect(iso(now())).toBe("2026-11-28T07:00");
    set_ahead(-90 * 60_000);
    expect(iso(now())).toBe("2026-11-28T05:30");
    set_ahead(0);
    vi.useRealTimers();
  });
});

describe("moments of the daybook", () => {
  it("are the wall clock of this device, there and back, also across a change of the clock", () => {
    for (const text of ["2026-11-28T07:00", "2026-03-29T12:00", "2026-10-25T12:00"]) {
      const at = moment_of(text) as Moment;
      expect(from_utc(to_utc(at))).toBe(at);
    }
    expect(to_utc(from_utc("2026-11-28T06:00:00Z") as Moment)).toBe("2026-11-28T06:00:00Z");
    expect(from_utc("soon")).toBeUndefined();
  });
});

// The rules of the European Union since 1996: clocks go forward on the last Sunday of March and back on that of October, both
// at 01:00 UTC (Directive 2000/84/EC).
describe("the night in which the clock is changed", () => {
  const usual_zone = process.env.TZ;
  beforeEach(() => {
    process.env.TZ = "Europe/Berlin";
  });
  afterEach(() => {
    if (usual_zone === undefined) delete process.env.TZ;
    else process.env.TZ = usual_zone;
  });
  const moment = (text: string) => moment_of(text) as Moment;
  it("has an hour more or less for the dough", () => {
    expect(hours_between(moment("2026-10-25T00:00"), moment("2026-10-25T06:00"))).toBe(7);
    expect(hours_between(moment("2026-03-29T00:00"), moment("2026-03-29T06:00"))).toBe(5);
    expect(exact_moment(after(moment("2026-10-25T00:00"), 7), usual)).toBe("Sun 06:00");
  });
  it("takes the first of an hour that comes twice, and goes on where one is left out, as the server does", () => {
    expect(to_utc(moment("2026-10-25T02:30"))).toBe("2026-10-25T00:30:00Z");
    expect(to_utc(moment("2026-03-29T02:30"))).toBe("2026-03-29T01:30:00Z");
  });
  it("knows which of two hours a moment was", () => {
    const second = from_utc("2026-10-25T01:30:00Z") as Moment;
    expect(iso(second)).toBe("2026-10-25T02:30");
    expect(to_utc(second)).toBe("2026-10-25T01:30:00Z");
    const bake = { mixed_at: "2026-10-25T01:30:00Z" };
    expect(mixed_of(bake, { mixed: "2026-10-25T02:30:00" })).toBe(second);
    expect(mixed_of(bake, { mixed: "2026-10-25T03:30:00" })).toBe(moment("2026-10-25T03:30"));
  });
});
