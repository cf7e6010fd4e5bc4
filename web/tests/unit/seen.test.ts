import { describe, expect, it } from "vitest";
import { OneByOne } from "../../src/api/newest";
import { type Moment, moment_of, to_utc } from "../../src/say/clock";
import { read_of_it } from "../../src/state/known_readings";

const mixed = moment_of("2026-11-28T07:00") as Moment;
const at = (text: string) => to_utc(moment_of(text) as Moment);

describe("what was read of a dough", () => {
  const look = (id: string, time: string, read: object, on_the_way = false) => ({ id, bake: "loaf", at: at(time), on_the_way, ...read });
  it("is counted where it says a number, and sent where the daybook does not know it yet", () => {
    const read = read_of_it([look("a", "2026-11-28T07:10", { edge_mm: 40 }), look("b", "2026-11-28T13:30", { height_mm: 52 }, true)], mixed);
    expect(read.count).toBe(2);
    expect(read.unsent).toEqual([{ id: "b", bake: "loaf", at: at("2026-11-28T13:30"), height_mm: 52 }]);
  });
  it("leaves out words alone, and what was before the mixing", () => {
    const read = read_of_it([look("a", "2026-11-28T08:00", { remark: "smells of apples" }), look("b", "2026-11-28T06:00", { height_mm: 40 }, true)], mixed);
    expect(read).toMatchObject({ count: 0, unsent: [] });
  });
  it("is another one when a reading was changed", () => {
    const [first, second] = [1, 2].map((revision) => read_of_it([look("a", "2026-11-28T08:00", { revision, height_mm: 40 })], mixed).key);
    expect(first).not.toBe(second);
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
