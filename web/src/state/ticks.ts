// What was ticked off of a bake; it changes when the forecast has to be asked anew.
import type { MarkRecordList } from "../api/types";
import { useAnswer } from "../api/use";

export function useTicks(id: string | undefined): string {
  const held = useAnswer<MarkRecordList>(id === undefined ? undefined : `/api/marks?owner=${id}&limit=500`, ["mark"]);
  const done = (held.answer?.marks ?? []).filter((mark) => mark.what !== "weigh");
  return done.map((mark) => `${mark.what} ${mark.stage} ${mark.at}`).join(", ");
}
