// The readings of a bake: those of the server and those still on their way, oldest first.
import { useMemo } from "preact/hooks";
import type { Bake } from "../api/bakes";
import { typed_reading } from "../api/reading_words";
import type { ReadingRecordChange, ReadingRecordList } from "../api/types";
import { useAnswer } from "../api/use";
import type { Moment } from "../say/clock";
import { readings_of } from "./outbox";
import { in_time } from "./readings";
import { useOnTheWay } from "./waiting";

export type Known = ReadingRecordChange & { id: string; on_the_way?: boolean };

/** Of a bake that is in the daybook; `there` is false until the server has said. */
export function useKnownReadings(record: Bake): { all: Known[]; error: unknown; again: () => void; there: boolean } {
  const { id, revision } = record;
  const held = useAnswer<ReadingRecordList>(revision === 0 ? undefined : `/api/readings?owner=${id}&limit=500`, ["reading"]);
  const waiting = useOnTheWay(held.asked_ms);
  const all = useMemo(() => {
    const sent = held.answer?.readings ?? [];
    const ids = new Set(sent.map((r) => r.id));
    const on_the_way = readings_of(waiting).filter((w) => w.reading.bake === id && !ids.has(w.reading.id)).map((w) => ({ ...w.reading, on_the_way: !("sent_ms" in w) }));
    return in_time<Known>([...sent, ...on_the_way]);
  }, [held.answer, waiting, id]);
  return { all, error: held.error, again: held.again, there: revision === 0 || held.answer !== undefined };
}

/** As the terminal takes them, while the dough stands; nothing until the server has said which there are. */
export function useSaidOfIt(record: Bake, mixed: Moment | undefined): string[] | undefined {
  const { all, there, error } = useKnownReadings(record);
  if (record.state !== "live" || mixed === undefined) return [];
  return there || error ? all.flatMap((reading) => typed_reading(reading, mixed) ?? []) : undefined;
}
