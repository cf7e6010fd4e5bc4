// What of the house is taken, as lanes in which no two bars meet.
import type { DayAnswer } from "../../api/types";

type Row = DayAnswer["held"][number];

export interface Lane {
  name: string;
  bars: Row["by"];
}

const most_lanes = 6;

/**
 * A lane for each of a thing, the first that is free taken; of many alike, such as places in the fridge, one for each bread
 * there at once. Idle hands have a lane, idle places none.
 */
export function lanes_of(row: Row): Lane[] {
  const many = row.of > most_lanes;
  const lanes: Row["by"][] = row.what === "hands" && !many ? Array.from({ length: row.of }, () => []) : [];
  for (const held of row.by) {
    for (let n = 0; n < (many ? 1 : held.amount); n++) {
      const free = lanes.find((bars) => (bars.at(-1)?.to ?? "") <= held.from);
      if (free) free.push(held);
      else lanes.push([held]);
    }
  }
  return lanes.map((bars, i) => ({ name: many || row.of === 1 ? row.what : `${row.what} ${i + 1}`, bars }));
}
