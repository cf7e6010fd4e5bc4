import { describe, expect, it } from "vitest";
import { address_of, link, match } from "../../src/shell/router";
import { settings_from } from "../../src/settings/settings";
import { opened_between } from "../../src/state/ready_watch";
import { meet } from "../../src/state/bake_draft";
import { ratios, start_height } from "../../src/state/readings";
import { marks_between, ruler_range, window_words } from "../../src/parts/ruler";
import { matching } from "../../src/parts/picker";
import { Newest } from "../../src/api/newest";
import { moment_of, to_utc, type Moment } from "../../src/say/clock";
import { usual } from "../../src/say/habits";
import type { Bake } from "../../src/api/bakes";
import type { Today } from "../../src/api/types";

describe("addresses", () => {
  it("hold a path and a query behind the number sign", () => {
    const { path, query } = address_of("#/bake/17/read?a=2");
    expect(path).toEqual(["bake", "17", "read"]);
    expect(query.get("a")).toBe("2");
    expect(link("bake", 17, "a b")).toBe("#/bake/17/a%20b");
    expect(address_of("#/%E0%A4%A").path).toEqual(["%E0%A4%A"]);
  });
  it("give their named parts", () => {
    expect(match("bake/:id/read", ["bake", "17", "read"])).toEqual({ id: "17" });
    expect(match("bake/:id", ["bake", "17", "read"])).toBeUndefined();
    expect(match("", [])).toEqual({});
  });
});

describe("settings", () => {
  it("fall back key by key when what was kept is broken", () => {
    expect(settings_from('{"warmth":"F","decimal":";","theme":7}')).toMatchObject({ warmth: "F", decimal: ".", theme: "auto" });
    expect(settings_from("not json")).toMatchObject({ warmth: "C" });
    expect(settings_from("null")).toMatchObject({ clock: "24" });
  });
});

describe("the watch for ready windows", () => {
  const at = (text: string) => moment_of(text) as Moment;
  const dough = (bake: string, opens: string | null) =>
    ({ bake, ready_p10_at: opens === null ? null : to_utc(at(opens)) }) as Today["doughs"][number];
  it("tells those that opened since it last looked, once", () => {
    const all = [dough("1", "2026-11-28T10:00"), dough("2", "2026-11-28T09:00"), dough("3", "2026-11-28T11:00"), dough("4", null)];
    const [nine, ten] = [at("2026-11-28T09:00"), at("2026-11-28T10:00")];
    expect(opened_between(all, nine, ten).map((d) => d.bake)).toEqual(["1"]);
    expect(opened_between(all, ten, ten)).toEqual([]);
  });
});

describe("a bake saved elsewhere", () => {
  const record = (form: object, revision: number) => ({ form, revision }) as unknown as Bake;
  const draft = { base: { name: "a" }, revision: 1, unsaved: true, other: undefined };
  it("is taken over when nothing was typed here", () => {
    expect(meet({ ...draft, unsaved: false }, record({ name: "b" }, 2))).toBe("adopt");
  });
  it("is a question when both changed the recipe, and none when only its state changed", () => {
    expect(meet(draft, record({ name: "b" }, 2))).toBe("ask");
    expect(meet(draft, record({ name: "a" }, 2))).toBe("revision");
  });
});

describe("readings", () => {
  const mixed = moment_of("2026-11-28T07:00") as Moment;
  const utc = (text: string) => to_utc(moment_of(text) as Moment);
  const rows = [
    { at: utc("2026-11-28T09:00"), height_mm: 60, ratio: null },
    { at: utc("2026-11-28T07:00"), height_mm: 40, ratio: null },
    { at: utc("2026-11-28T10:00"), height_mm: null, ratio: 1.9 },
    { at: utc("2026-11-28T11:00"), height_mm: null, ratio: null },
  ];
  it("are volumes against the first height", () => {
    expect(start_height(rows)).toBe(40);
    expect(ratios(rows, mixed)).toEqual([
      { t_h: 0, ratio: 1 },
      { t_h: 2, ratio: 1.5 },
      { t_h: 3, ratio: 1.9 },
    ]);
  });
});

describe("the ready window", () => {
  const spread = (p05: number | null, p10: number | null, p50: number | null, p90: number | null, p95: number | null) => ({ p05_h: p05, p10_h: p10, p50_h: p50, p90_h: p90, p95_h: p95 });
  const forecast = {
    ready: spread(5.9, 6.3, 9.7, 21.5, null),
    past_its_best: spread(8.7, 9.5, 14, 22.7, 26.7),
    look_again_h: 3.1,
    chance_never: 0.0825,
    draws: 400,
    horizon_h: 72,
    target_volume_ratio: 2,
    temperature_C: 24,
  };
  const mixed = moment_of("2026-11-28T07:00") as Moment;
  const say = (f: typeof forecast) => window_words({ forecast: f, mixed, habits: usual }).map((w) => `${w.what}: ${w.says}`);
  it("is said in words with its range and its chance", () => {
    expect(say(forecast)).toEqual([
      "likely between: Sat 13:15 and Sun 04:30",
      "look again: Sat 10:00",
      "past its best: after Sat 21:00",
      "not ready: 1 in 10 doughs within 72 h",
    ]);
  });
  it("says so when more than half of the doughs never get there", () => {
    const hopeless = { ...forecast, ready: spread(30, 40, null, null, null), chance_never: 0.7 };
    expect(say(hopeless)).toEqual(["gets there in time: 3 in 10 doughs like this one", "the first of them: about Sun 23:00"]);
  });
  it("has no end when the last of the four in five are later than is looked", () => {
    expect(say({ ...forecast, ready: spread(5.9, 6.3, 9.7, null, null) })[0]).toBe("likely between: Sat 13:15 and later than 72 h");
  });
  it("stands on a ruler that holds it, with marks at full hours of the clock", () => {
    const { from, to, step } = ruler_range(forecast);
    expect(from).toBe(0);
    expect(to).toBeGreaterThan(21.5);
    for (const h of marks_between(from, to, step, mixed)) expect((h + 7) % step).toBeCloseTo(0);
  });
});

describe("picking", () => {
  const all = [
    { name: "sweet mead", also: [], group: "drink", note: "" },
    { name: "meadow honey", also: [], group: "sugar", note: "" },
    { name: "Saltings", also: ["dry mead"], group: "drink", note: "", own: { name: "Saltings", like: "dry mead", label: {} } },
  ];
  it("finds by any part of name, other name and group; own bottles first", () => {
    expect(matching(all, "mead").map((c) => c.name)).toEqual(["Saltings", "meadow honey", "sweet mead"]);
    expect(matching(all, "mead drink").map((c) => c.name)).toEqual(["Saltings", "sweet mead"]);
    expect(matching(all, "beer")).toEqual([]);
  });
});

describe("asking while typing", () => {
  it("shows only the answer to the newest question and stops the older ones", async () => {
    const shown: string[] = [];
    const stopped: string[] = [];
    const waiting = new Map<string, (answer: string) => void>();
    const newest = new Newest<string, string>(
      (question, signal) => {
        signal.addEventListener("abort", () => stopped.push(question));
        return new Promise((resolve) => waiting.set(question, resolve));
      },
      (answer) => shown.push(answer),
      (error) => shown.push(String(error)),
    );
    newest.ask("7");
    newest.ask("70");
    waiting.get("70")?.("seventy");
    waiting.get("7")?.("seven");
    await Promise.resolve();
    await Promise.resolve();
    expect(stopped).toEqual(["7"]);
    expect(shown).toEqual(["seventy"]);
  });
});
