// What the doughs of a culture have taught about it, in words.
import type { BakeList, CultureRecord } from "../../api/types";

export function Memory(_props: { culture: CultureRecord; bakes?: BakeList }) {
  return null;
}
