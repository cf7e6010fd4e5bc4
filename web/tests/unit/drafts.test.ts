import { afterEach, describe, expect, it, vi } from "vitest";
import { clashing } from "../../src/parts/record";
import { now } from "../../src/say/clock";
import { choose, choice, heard_date, in_question, server_ahead_ms } from "../../src/state/clock";
import { draft, drafts, drop_draft, give_up, keep_draft } from "../../src/state/drafts";
import { looks_with, with_look } from "../../src/state/test_bake";

describe("what is typed and not saved", () => {
  it("is there by its name until it is dropped, and can be had again when it is given up", () => {
    keep_draft("new.bottle", { name: "Sea porter" }, 0);
    expect(draft<{ name: string }>("new.bottle")?.value.name).toBe("Sea porter");
    expect(drafts("new.")).toEqual(["new.bottle"]);
    const undo = give_up("new.bottle");
    expect(drafts()).toEqual([]);
    undo();
    expect(draft<{ name: string }>("new.bottle")?.value.name).toBe("Sea porter");
    drop_draft("new.bottle");
    expect(draft("new.bottle")).toBeUndefined();
  });

  it("clashes only where another changed the same field to something else", () => {
    const base = { id: "b", revision: 1, title: "a", remark: "r", left_mL: 10 };
    const kept = { changes: { title: "mine", remark: "r2" }, base: { title: "a", remark: "r" } };
    expect(clashing(kept, { ...base, left_mL: 5 })).toEqual([]);
    expect(clashing(kept, { ...base, title: "theirs" })).toEqual(["title"]);
    expect(clashing(kept, { ...base, title: "mine", remark: "r3" })).toEqual(["remark"]);
  });
});

describe("heights of jars", () => {
  const look = (hours: number, height_mm: number) => ({ day: "2026-11-28", dough: "mead", repeat: 1, hours, height_mm });
  it("stand once for a jar at an hour, and are taken out by it", () => {
    const two = looks_with([look(2, 60)], look(4, 70), false);
    expect(looks_with(two, look(4, 72), false).map((l) => l.height_mm)).toEqual([60, 72]);
    expect(looks_with(two, look(2, 99), true).map((l) => l.hours)).toEqual([4]);
  });
  it("leave all else in the document as it is", () => {
    expect(JSON.parse(with_look('{"seed":7,"later":"kept"}', look(2, 60), false))).toEqual({ seed: 7, later: "kept", looks: [look(2, 60)] });
  });
});

describe("whose clock holds", () => {
  const noon = Date.parse("2026-11-28T12:00:00Z");
  const hear = (server: string) => heard_date(server, noon, noon + 200);
  afterEach(() => {
    vi.useRealTimers();
    choose(undefined);
  });
  it("is no question while both say the same to the second", () => {
    hear("Sat, 28 Nov 2026 12:00:00 GMT");
    expect(server_ahead_ms.value).toBe(0);
    expect(in_question()).toBe(false);
  });
  it("is asked when they are apart, and the server's is taken along until the device's is set", () => {
    vi.useFakeTimers({ now: noon });
    hear("Sat, 28 Nov 2026 10:00:00 GMT");
    expect(in_question()).toBe(true);
    expect(now()).toBe(noon);
    choose("server");
    expect(in_question()).toBe(false);
    expect(Math.abs(now() - Date.parse("2026-11-28T10:00:00Z"))).toBeLessThanOrEqual(1000);
    hear("Sat, 28 Nov 2026 12:00:00 GMT");
    expect(choice.value).toBeUndefined();
    expect(now()).toBe(noon);
  });
  it("is asked again when the device's was said to be right and moves away further", () => {
    hear("Sat, 28 Nov 2026 10:00:00 GMT");
    choose("device");
    expect(in_question()).toBe(false);
    hear("Sat, 28 Nov 2026 09:00:00 GMT");
    expect(in_question()).toBe(true);
  });
  it("cannot be told by an answer that took long", () => {
    hear("Sat, 28 Nov 2026 12:00:00 GMT");
    heard_date("Sat, 28 Nov 2026 13:00:00 GMT", noon, noon + 60_000);
    expect(in_question()).toBe(false);
  });
});
