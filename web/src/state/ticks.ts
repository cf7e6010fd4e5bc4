// What was ticked off of a bake; it changes when the forecast has to be asked anew.
import type { MarkRecordList } from "../api/types";
import { useAnswer } from "../api/use";

/** Nothing until the server has said since the screen opened, or could not. */
export function useTicks(id: string | undefined): string | undefined {
  const held = useAnswer<MarkRecordList>(id === undefined ? undefined : `/api/marks?owner=${id}&limit=500`, ["mark"]);
  if (id !== undefined && held.asking) return undefined;
  const done = (held.answer?.marks ?? []).filter((mark) => mark.what !== "weigh");
  return done.map((mark) => `${mark.what} ${mark.stage} ${mark.at}`).join(", ");
}
