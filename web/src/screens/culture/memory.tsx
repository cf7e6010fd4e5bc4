// What the doughs of a culture have taught about it, in words.
import type { CultureRecord } from "../../api/types";

export function Memory({ culture }: { culture: CultureRecord }) {
  void culture;
  return null;
}
