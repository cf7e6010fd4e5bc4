import { describe, expect, it } from "vitest";
import type { EquipmentRecord } from "../../src/api/types";
import { lessons_of, line_of, loads_of, with_line } from "../../src/state/equipment";

const oven = (title: string, toml: string): EquipmentRecord => ({ id: title, revision: 1, saved_at: "", deleted_at: null, title, what: "oven", toml, measured: "", remark: "" });

describe("the lines of an oven", () => {
  const toml = 'holds = 4\ncavity = "60 L"\nlearned = [0.1, 0.4]\nfan = true\n';
  it("are read whatever they hold", () => {
    expect(line_of(toml, "holds")).toBe("4");
    expect(line_of(toml, "cavity")).toBe("60 L");
    expect(line_of(toml, "learned")).toBe("[0.1, 0.4]");
    expect(line_of(toml, "power")).toBeUndefined();
  });
  it("are changed one by one, and the others stay", () => {
    expect(line_of(with_line(toml, "holds", "6"), "holds")).toBe("6");
    expect(line_of(with_line(toml, "holds", "6"), "learned")).toBe("[0.1, 0.4]");
    expect(with_line(toml, "fan", undefined)).not.toContain("fan");
    expect(with_line("", "cavity", '"80 L"')).toBe('cavity = "80 L"\n');
  });
});

describe("the loads of a bake", () => {
  it("are what its pieces make of what goes in at once", () => {
    expect(loads_of({ pieces: 6, oven: { loaves: 2 } }, [])).toBe(3);
    expect(loads_of({ pieces: 5, oven: { holds: 2 } }, [])).toBe(3);
    expect(loads_of({ pieces: 6, oven: { set: "230 C" } }, [])).toBe(1);
  });
  it("follow the house's oven where the bake says nothing", () => {
    const deck = oven("Deck oven", "holds = 4\n");
    expect(loads_of({ pieces: 6, oven: { set: "230 C" } }, [deck])).toBe(2);
    expect(loads_of({ pieces: 6, oven: { name: "deck OVEN" } }, [deck, oven("Stone", "holds = 1\n")])).toBe(2);
    expect(loads_of({ pieces: 6, oven: { set: "230 C" } }, [deck, oven("Stone", "")])).toBe(1);
  });
});

describe("what an oven was learned from", () => {
  it("is a list, the oldest first; nothing where nothing was measured", () => {
    expect(lessons_of({ measured: "" })).toEqual([]);
    expect(lessons_of({ measured: '[{"at": "2026-11-28T06:00:00Z", "bake": "Mead loaf"}]' })).toHaveLength(1);
  });
});
