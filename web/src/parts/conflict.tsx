// Another tab or device saved this bake while it was being changed here: both side by side, and the baker decides.
import { useState } from "preact/hooks";
import { words_of } from "../api/ask";
import { type Bake, new_bake } from "../api/bakes";
import { Sheet } from "./sheet";
import { go, link } from "../shell/router";
import type { BakeDraft } from "../state/bake_draft";
import { differences } from "../state/differences";
import { Refused } from "./states";

export function Conflict({ draft, other }: { draft: BakeDraft; other: Bake }) {
  const [wrong, set_wrong] = useState("");
  const [later, set_later] = useState(false);
  const attempt = (work: Promise<unknown>) => void work.catch((error: unknown) => set_wrong(words_of(error)));
  const as_new = async () => {
    const mine = { ...draft.form, name: `${String(draft.form.name ?? "Bake")}, my changes` };
    const made = await new_bake(mine, { culture: other.culture });
    draft.take_theirs();
    go(link("bake", made.id));
  };
  if (later) {
    return (
      <p class="note no-print" role="status">
        {draft.restored ? "The daybook was put back from a copy, and this bake is different there." : "This bake was changed elsewhere meanwhile."}{" "}
        <button type="button" class="plain" onClick={() => set_later(false)}>
          Look at both
        </button>
      </p>
    );
  }
  return (
    <Sheet title={draft.restored ? "The daybook was put back" : "Changed elsewhere meanwhile"} close={() => set_later(true)}>
      <p>
        {draft.restored
          ? "A copy of the daybook was put back since you began, and in the copy this bake is another."
          : "Another tab or device saved this bake while you were changing it."}{" "}
        Nothing is lost; say which one holds.
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">what</th>
            <th scope="col">yours</th>
            <th scope="col">{draft.restored ? "in the copy" : "theirs"}</th>
          </tr>
        </thead>
        <tbody>
          {differences(draft.form, other.form).map((d) => (
            <tr key={d.what}>
              <td>{d.what}</td>
              <td>{d.mine}</td>
              <td>{d.theirs}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Refused why={wrong} />
      <div class="row">
        <button type="button" class="main" onClick={() => attempt(draft.keep_mine())}>
          Keep mine
        </button>
        <button type="button" onClick={draft.take_theirs}>
          {draft.restored ? "Keep the copy’s" : "Keep theirs"}
        </button>
        <button type="button" onClick={() => attempt(as_new())}>
          Keep mine as a new bake
        </button>
      </div>
    </Sheet>
  );
}
