import "fake-indexeddb/auto";
import { webcrypto } from "node:crypto";
import { describe, expect, it } from "vitest";
import { Away, Refusal } from "../../src/api/ask";
import { in_memory, shelf } from "../../src/state/shelf";
import { Outbox, type Waiting } from "../../src/state/outbox";

// Node 18 has it, but not yet as a global.
globalThis.crypto ??= webcrypto as Crypto;

const reading = (at: string, height_mm: number) => ({ bake: "7f3a", at, height_mm });
const refusal = (status: number, code: string) => new Refusal({ type: "", title: "", status, code, detail: "not in a jar" });

describe("readings on their way", () => {
  it("are sent at once, oldest first, and then forgotten", async () => {
    const sent: Waiting[] = [];
    const box = new Outbox(in_memory(), async (w) => sent.push(w));
    await box.add(reading("2026-11-28T09:30:00Z", 52));
    expect(sent.map((w) => [w.reading.bake, w.reading.at, w.reading.height_mm])).toEqual([["7f3a", "2026-11-28T09:30:00Z", 52]]);
    expect(box.waiting.value).toEqual([]);
  });

  it("wait while the server is away, through a reload, and are sent when it is back", async () => {
    let there = false;
    const sent: string[] = [];
    const send = async (w: Waiting) => {
      if (!there) throw new Away();
      sent.push(`${w.reading.at} ${w.reading.id}`);
    };
    const kept = await shelf<Waiting>("test-away");
    expect(kept.lasting).toBe(true);
    const before = new Outbox(kept, send);
    await before.add(reading("2026-11-28T10:30:00Z", 60));
    await before.add(reading("2026-11-28T09:30:00Z", 52));
    expect(before.waiting.value).toHaveLength(2);

    const after_reload = new Outbox(await shelf<Waiting>("test-away"), send);
    await after_reload.open();
    there = true;
    await after_reload.flush();
    expect(sent.map((s) => s.slice(0, 20))).toEqual(["2026-11-28T09:30:00Z", "2026-11-28T10:30:00Z"]);
    expect(new Set(sent.map((s) => s.slice(21))).size).toBe(2);
    expect(await kept.all()).toEqual([]);
  });

  it("that the server refuses are set aside with the reason, and do not hold up the others", async () => {
    const sent: number[] = [];
    const box = new Outbox(in_memory(), async (w) => {
      if (w.reading.height_mm === 1) throw refusal(400, "bad_input");
      sent.push(w.reading.height_mm ?? 0);
    });
    await box.add(reading("2026-11-28T09:30:00Z", 1));
    await box.add(reading("2026-11-28T10:30:00Z", 60));
    expect(sent).toEqual([60]);
    expect(box.waiting.value.map((w) => w.refused)).toEqual(["not in a jar"]);
  });

  it("stay when the server has a fault of its own", async () => {
    const box = new Outbox(in_memory(), async () => {
      throw refusal(503, "too_busy");
    });
    await box.add(reading("2026-11-28T09:30:00Z", 52));
    expect(box.waiting.value).toHaveLength(1);
    expect(box.waiting.value[0]?.refused).toBeUndefined();
  });
});
