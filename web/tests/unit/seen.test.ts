import { describe, expect, it } from "vitest";
import { typed_reading } from "../../src/api/reading_words";
import { OneByOne } from "../../src/api/newest";
import { type Moment, moment_of, to_utc } from "../../src/say/clock";

const mixed = moment_of("2026-11-28T07:00") as Moment;
const at = (text: string) => to_utc(moment_of(text) as Moment);

describe("a reading as the terminal takes it", () => {
  it("holds its hour after mixing and what was read", () => {
    expect(typed_reading({ at: at("2026-11-28T13:30"), height_mm: 52, sample_C: 23.5, ph: 4.9 }, mixed)).toBe("6.5h 52 mm 23.5 C pH 4.9");
    expect(typed_reading({ at: at("2026-11-28T08:00"), ratio: 1.4 }, mixed)).toBe("1h 1.4x");
  });
  it("holds the warmth of the bulk and of the room", () => {
    expect(typed_reading({ at: at("2026-11-28T08:00"), room_C: 20, bulk_C: 23 }, mixed)).toBe("1h bulk 23 C room 20 C");
  });
  it("is none when it says nothing, or was before the mixing", () => {
    expect(typed_reading({ at: at("2026-11-28T08:00") }, mixed)).toBeUndefined();
    expect(typed_reading({ at: at("2026-11-28T06:00"), height_mm: 40 }, mixed)).toBeUndefined();
  });
});

describe("asking one by one", () => {
  it("lets the question under way finish and then asks only the newest", async () => {
    const asked: number[] = [];
    const answered: number[] = [];
    const open: (() => void)[] = [];
    const line = new OneByOne<number, number>(
      (n) => {
        asked.push(n);
        return new Promise((done) => open.push(() => done(n)));
      },
      (n) => answered.push(n),
      () => undefined,
    );
    for (const n of [1, 2, 3]) line.ask(n);
    open[0]?.();
    await new Promise((done) => setTimeout(done));
    open[1]?.();
    await new Promise((done) => setTimeout(done));
    expect(asked).toEqual([1, 3]);
    expect(answered).toEqual([1, 3]);
  });
});
