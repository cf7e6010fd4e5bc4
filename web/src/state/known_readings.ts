// The readings of a bake: those of the server and those still on their way, oldest first.
import { useMemo } from "preact/hooks";
import type { Bake } from "../api/bakes";
import type { ReadingRecordChange, ReadingRecordList } from "../api/types";
import { useAnswer } from "../api/use";
import { type Moment, from_utc, hours_between } from "../say/clock";
import { readings_of } from "./outbox";
import { in_time } from "./readings";
import { useOnTheWay, useWaitingKnown } from "./waiting";

/** All readings of a bake, up to as many as a logger of a night writes. */
export const readings_of_bake = (id: string) => `/api/readings?owner=${id}&limit=10000`;

export type Known = ReadingRecordChange & { id: string; on_the_way?: boolean };

/** Of a bake that is in the daybook; `there` is false until the server has said, `sure` until it has said since the screen opened, or could not. */
export function useKnownReadings(record: Pick<Bake, "id" | "revision">): { all: Known[]; error: unknown; again: () => void; there: boolean; sure: boolean } {
  const { id, revision } = record;
  const held = useAnswer<ReadingRecordList>(revision === 0 ? undefined : readings_of_bake(id), ["reading"]);
  const waiting = useOnTheWay(held.asked_ms);
  const waiting_known = useWaitingKnown();
  const all = useMemo(() => {
    const sent = held.answer?.readings ?? [];
    const ids = new Set(sent.map((r) => r.id));
    const on_the_way = readings_of(waiting).filter((w) => w.reading.bake === id && !ids.has(w.reading.id)).map((w) => ({ ...w.reading, on_the_way: !("sent_ms" in w) }));
    return in_time<Known>([...sent, ...on_the_way]);
  }, [held.answer, waiting, id]);
  return { all, error: held.error, again: held.again, there: revision === 0 || held.answer !== undefined, sure: revision === 0 || (waiting_known && !held.asking) };
}

/** What was read of a dough: how often, and what the daybook has not been told yet; itself it knows the rest. */
export interface ReadOfIt {
  count: number;
  unsent: ReadingRecordChange[];
  /** Another one when anything of it is. */
  key: string;
}

/** Whether it says a number of the dough, and not before it was mixed. */
export function says_of_it(reading: Omit<ReadingRecordChange, "bake">, mixed: Moment): boolean {
  const at = from_utc(reading.at);
  const { height_mm, edge_mm, dome_mm, ratio, sample_C, bulk_C, room_C, ph } = reading;
  return at !== undefined && hours_between(mixed, at) >= 0 && [height_mm, edge_mm, dome_mm, ratio, sample_C, bulk_C, room_C, ph].some((value) => value != null);
}

export function read_of_it(all: readonly Known[], mixed: Moment | undefined): ReadOfIt {
  const said = mixed === undefined ? [] : all.filter((reading) => says_of_it(reading, mixed));
  const unsent = said.filter((reading) => reading.on_the_way).map(({ on_the_way: _, ...reading }) => reading);
  return { count: said.length, unsent, key: JSON.stringify(all.map((reading) => [reading.id, reading.revision])) };
}

export const never_read: ReadOfIt = { count: 0, unsent: [], key: "" };

const nowhere = { id: "", revision: 0 };

/** Of a dough that stands; nothing until the server has said what it knows now: what is remembered from before may lack a reading. */
export function useReadOfIt(record: Bake | undefined, mixed: Moment | undefined): ReadOfIt | undefined {
  const { all, sure } = useKnownReadings(record ?? nowhere);
  if (record?.state !== "live" || mixed === undefined) return never_read;
  return sure ? read_of_it(all, mixed) : undefined;
}
