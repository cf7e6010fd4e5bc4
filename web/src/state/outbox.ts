// Readings on their way to the server. A reading is first put on the shelf, then sent, then taken off; so it outlives a
// server that is away, a reload and a phone that sleeps. Its id makes sending twice harmless.
import { signal } from "@preact/signals";
import { Away, Refusal, post } from "../api/ask";
import type { ReadingRecord, ReadingRecordChange } from "../api/types";
import { type Shelf, shelf } from "./shelf";

/** A reading with the id that this browser chose for it. */
export type Typed = ReadingRecordChange & { id: string };

export interface Waiting {
  reading: Typed;
  /** Why the server will not take it, once it has said so. */
  refused?: string;
}

export type Send = (waiting: Waiting) => Promise<unknown>;

const to_server: Send = (waiting) => post<ReadingRecord>("/api/readings", waiting.reading);

/** An id nobody else makes; works without a secure context too. */
export function new_id(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
}

export class Outbox {
  readonly waiting = signal<Waiting[]>([]);
  private sending: Promise<void> | undefined;

  constructor(
    private readonly kept: Shelf<Waiting>,
    private readonly send: Send = to_server,
  ) {}

  async open(): Promise<void> {
    this.waiting.value = (await this.kept.all()).map(({ item }) => item).sort(by_time);
  }

  async add(reading: ReadingRecordChange): Promise<void> {
    const waiting: Waiting = { reading: { ...reading, id: reading.id ?? new_id() } };
    await this.kept.put(waiting.reading.id, waiting);
    this.waiting.value = [...this.waiting.value, waiting].sort(by_time);
    await this.flush();
  }

  async forget(id: string): Promise<void> {
    await this.kept.drop(id);
    this.waiting.value = this.waiting.value.filter((w) => w.reading.id !== id);
  }

  /** Sends what waits, oldest first; stops at the first that finds nobody. */
  flush(): Promise<void> {
    this.sending ??= this.send_all().finally(() => {
      this.sending = undefined;
    });
    return this.sending;
  }

  private async send_all(): Promise<void> {
    for (;;) {
      const next = this.waiting.value.find((w) => w.refused === undefined);
      if (!next) return;
      try {
        await this.send(next);
      } catch (error) {
        if (error instanceof Refusal && error.problem.status < 500 && error.problem.code !== "not_paired") {
          await this.refuse(next, error.message);
          continue;
        }
        if (error instanceof Away || error instanceof Refusal) return;
        throw error;
      }
      await this.forget(next.reading.id);
    }
  }

  private async refuse(waiting: Waiting, why: string): Promise<void> {
    const refused = { ...waiting, refused: why };
    await this.kept.put(waiting.reading.id, refused);
    this.waiting.value = this.waiting.value.map((w) => (w.reading.id === waiting.reading.id ? refused : w));
  }
}

const by_time = (a: Waiting, b: Waiting) => (a.reading.at < b.reading.at ? -1 : 1);

let the_outbox: Promise<Outbox> | undefined;

/** The one outbox of this tab. */
export function outbox(): Promise<Outbox> {
  the_outbox ??= shelf<Waiting>("readings").then(async (kept) => {
    const box = new Outbox(kept);
    await box.open();
    return box;
  });
  return the_outbox;
}
