import "fake-indexeddb/auto";
import { webcrypto } from "node:crypto";
import { describe, expect, it } from "vitest";
import { Away, Refusal } from "../../src/api/ask";
import { in_memory, shelf } from "../../src/state/shelf";
import { Outbox, type Typed, type Waiting, counted, looks_of, photos_of } from "../../src/state/outbox";

// Node 18 has it, but not yet as a global.
globalThis.crypto ??= webcrypto as Crypto;

let ids = 0;
const reading = (at: string, height_mm: number): Waiting => ({ reading: { id: `id-${ids++}`, bake: "7f3a", at, height_mm } });
const of = (w: Waiting): Typed => ("reading" in w ? w.reading : (undefined as never));
const refusal = (status: number, code: string) => new Refusal({ type: "", title: "", status, code, detail: "not in a jar" });

describe("readings on their way", () => {
  it("are sent at once, oldest first, and then forgotten", async () => {
    const sent: Waiting[] = [];
    const box = new Outbox(in_memory(), async (w) => sent.push(w));
    await box.add(reading("2026-11-28T09:30:00Z", 52));
    expect(sent.map((w) => [of(w).bake, of(w).at, of(w).height_mm])).toEqual([["7f3a", "2026-11-28T09:30:00Z", 52]]);
    expect(box.waiting.value).toEqual([]);
  });

  it("wait while the server is away, through a reload, and are sent when it is back", async () => {
    let there = false;
    const sent: string[] = [];
    const send = async (w: Waiting) => {
      if (!there) throw new Away();
      sent.push(`${of(w).at} ${of(w).id}`);
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

  it("are loaves and their photos too: a loaf before its photo, the picture through a reload as it was", async () => {
    let there = false;
    const sent: string[] = [];
    const send = async (w: Waiting) => {
      if (!there) throw new Away();
      sent.push("loaf" in w ? `loaf ${w.loaf.id}` : "photo" in w ? `photo of ${w.photo.loaf}: ${await w.photo.picture.text()}` : "else");
    };
    const before = new Outbox(await shelf<Waiting>("test-loaves"), send);
    await before.add({ loaf: { id: "l1", bake: "7f3a", baked_at: "2026-11-28T10:30:00Z" } });
    await before.add({ photo: { id: "p1", loaf: "l1", taken_at: "2026-11-28T10:30:00Z", picture: new Blob(["crust"], { type: "image/jpeg" }) } });
    expect(counted(before.waiting.value)).toBe("1 loaf and 1 photo are");
    expect(photos_of(before.waiting.value, "l1")).toHaveLength(1);

    const after_reload = new Outbox(await shelf<Waiting>("test-loaves"), send);
    await after_reload.open();
    there = true;
    await after_reload.flush();
    expect(sent).toEqual(["loaf l1", "photo of l1: crust"]);
    expect(after_reload.waiting.value).toEqual([]);
  });

  it("that the server refuses are set aside with the reason, and do not hold up the others", async () => {
    const sent: number[] = [];
    const box = new Outbox(in_memory(), async (w) => {
      if (of(w).height_mm === 1) throw refusal(400, "bad_input");
      sent.push(of(w).height_mm ?? 0);
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

  it("stay while nothing can be saved, the page is of another program, or a copy was put back", async () => {
    for (const [status, code] of [[503, "unavailable"], [409, "stale_page"], [409, "restored"]] as const) {
      const box = new Outbox(in_memory(), async () => {
        throw refusal(status, code);
      });
      await box.add(reading("2026-11-28T09:30:00Z", 52));
      expect(box.waiting.value.map((w) => w.refused)).toEqual([undefined]);
    }
  });

  it("are sent where the browser has no room to keep them", async () => {
    const sent: number[] = [];
    const full = { ...in_memory<Waiting>(), put: async () => Promise.reject(new DOMException("full", "QuotaExceededError")) };
    const box = new Outbox(full, async (w) => sent.push(of(w).height_mm ?? 0));
    await box.add(reading("2026-11-28T09:30:00Z", 52));
    expect(sent).toEqual([52]);
  });

  it("are on a list at any moment: on the way, or among what was sent last", async () => {
    const seen: [number, number][] = [];
    const box: Outbox = new Outbox(in_memory(), async () => seen.push([box.waiting.value.length, box.sent.value.length]));
    let there = 0;
    await box.add(reading("2026-11-28T09:30:00Z", 52), () => (there = box.waiting.value.length));
    expect(there).toBe(1);
    expect(seen).toEqual([[1, 0]]);
    expect([box.waiting.value.length, box.sent.value.length]).toEqual([0, 1]);
  });

  it("are put later when this device's clock was wrong, but not where a time was typed", async () => {
    let there = false;
    const sent: string[] = [];
    const box = new Outbox(in_memory(), async (w) => {
      if (!there) throw new Away();
      sent.push(of(w).at);
    });
    await box.add({ ...reading("2026-11-28T09:30:00Z", 52), by_clock: true });
    await box.add(reading("2026-11-28T10:30:00Z", 55));
    there = true;
    await box.set_later(-3_600_000);
    expect(sent).toEqual(["2026-11-28T08:30:00Z", "2026-11-28T10:30:00Z"]);
  });

  it("are heights of jars too, in the order in which they were written and taken out", async () => {
    const box = new Outbox(in_memory(), async () => {
      throw new Away();
    });
    const look = { day: "2026-11-28", dough: "mead", repeat: 1, hours: 4, height_mm: 70 };
    await box.add({ jar: { id: "b", test: "t", look, taken_out: false }, noted_ms: 1 });
    await box.add({ jar: { id: "a", test: "t", look, taken_out: true }, noted_ms: 2 });
    expect(looks_of(box.waiting.value, "t").map((w) => w.taken_out)).toEqual([false, true]);
    expect(looks_of(box.waiting.value, "another")).toEqual([]);
  });
});
