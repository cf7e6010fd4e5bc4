// The forecast of a dough as far as it was seen. TEMPORARY route until readings narrow it.
import { useEffect, useRef, useState } from "preact/hooks";
import { post } from "../../api/ask";
import { Newest } from "../../api/newest";
import type { Bake } from "../../api/bakes";
import type { ForeseeAnswer, ReadingRecordChange } from "../../api/types";
import type { Forecast } from "../../parts/ruler";
import type { RisePoint } from "../../parts/rise";
import type { Moment } from "../../say/clock";

export type SeenForecast = Forecast & { rise: RisePoint[] };

export interface Seen {
  now: SeenForecast | undefined;
  before: SeenForecast | undefined;
  error: unknown;
  again: () => void;
}

export function useSeen(record: Bake, readings: readonly ReadingRecordChange[], height: number | undefined, _mixed: Moment | undefined): Seen {
  const [state, set_state] = useState<Omit<Seen, "again">>({ now: undefined, before: undefined, error: undefined });
  const [turn, set_turn] = useState(0);
  const line = useRef<Newest<Bake, ForeseeAnswer>>();
  line.current ??= new Newest<Bake, ForeseeAnswer>(
    (of, signal) => post("/api/foresee", { bake_id: of.id }, { signal }),
    (answer) => set_state((was) => ({ now: answer, before: was.now ?? undefined, error: undefined })),
    (error) => set_state((was) => ({ ...was, error })),
  );
  void height;
  useEffect(() => line.current?.ask(record), [record.revision, readings.length, turn]);
  return { ...state, again: () => set_turn((n) => n + 1) };
}
