// A bake that is not in the daybook yet: its recipe, and what would come of it, until it is saved or given up.
import { useState } from "preact/hooks";
import type { Params } from "../../shell/names";
import { go, link } from "../../shell/router";
import { give_up } from "../../state/drafts";
import { draft_of, unsaved_bake } from "../../state/new_bakes";
import { can_undo } from "../../state/undo";
import { Bake } from "../bake";

export default function UnsavedBakeScreen({ params }: { params: Params }) {
  const id = params.id ?? "";
  const [record] = useState(() => unsaved_bake(id));
  if (!record) {
    return (
      <div class="stack">
        <h1>New bake</h1>
        <p>This bake was saved or given up.</p>
        <div class="row">
          <a class="button" href={link("bakes")}>
            To the bakes
          </a>
          <a class="button" href={link("new")}>
            Another new bake
          </a>
        </div>
      </div>
    );
  }
  const drop = () => {
    can_undo(`${record.title} is given up.`, give_up(draft_of(id)));
    go(link("bakes"), true);
  };
  return (
    <div class="stack">
      <h1>
        New bake <span class="quiet small">not saved yet</span>
      </h1>
      <div class="note row apart">
        <span>It goes into the daybook, and onto your other devices, when you save it. Until then it is kept in this browser.</span>
        <button type="button" onClick={drop}>
          Discard it
        </button>
      </div>
      <Bake record={record} saved={() => go(link("bake", id), true)} />
    </div>
  );
}
