// One bake being changed: every change is kept as a draft at once, can be undone, and is saved against the revision it
// started from. When another tab or device changed the recipe meanwhile, both are shown and the baker decides.
import { useEffect, useRef, useState } from "preact/hooks";
import { after_restore, conflicting } from "../api/ask";
import { type Bake, save_bake, with_form } from "../api/bakes";
import { epoch } from "../api/told";
import type { BakeRecord } from "../api/types";
import type { Form } from "./bake";
import { draft, drop_draft, give_up, keep_draft } from "./drafts";
import { can_undo } from "./undo";

export interface BakeDraft {
  form: Form;
  unsaved: boolean;
  /** Brought back from before a reload; for the words on the screen. */
  brought_back: boolean;
  change: (to: Form) => void;
  undo: (() => void) | undefined;
  save: () => Promise<void>;
  discard: () => void;
  /** The bake as another left it, while its recipe differs from the one this draft began with. */
  other: Bake | undefined;
  /** It differs because a copy of the daybook was put back. */
  restored: boolean;
  keep_mine: () => Promise<void>;
  take_theirs: () => void;
}

/** As it is kept in the browser. */
export interface KeptBake {
  form: Form;
  base: Form;
  /** The bake it is baked again from. */
  parent?: string | undefined;
}

interface State extends KeptBake {
  revision: number;
  unsaved: boolean;
  brought_back: boolean;
  before: readonly Form[];
  other: Bake | undefined;
}

const most_steps_back = 100;

export const same = (a: Form, b: Form) => JSON.stringify(a) === JSON.stringify(b);

const saved = (bake: Bake): State => ({
  form: bake.form,
  base: bake.form,
  revision: bake.revision,
  unsaved: false,
  brought_back: false,
  before: [],
  other: undefined,
});

/** The bake with what was typed and not saved laid over it. */
function begin(bake: Bake): State {
  const kept = draft<KeptBake>(`bake.${bake.id}`);
  if (!kept?.value.form || !kept.value.base) return saved(bake);
  const { form, base } = kept.value;
  const untouched = same(base, bake.form);
  return {
    form,
    base,
    revision: untouched ? bake.revision : kept.revision,
    unsaved: true,
    brought_back: true,
    before: [base],
    other: untouched ? undefined : bake,
  };
}

/** What a newer bake means for a draft: the revision only, the whole of it, or a question. */
export function meet(draft: Pick<State, "base" | "unsaved">, newer: Pick<Bake, "form">): "revision" | "adopt" | "ask" {
  if (!draft.unsaved) return "adopt";
  return same(draft.base, newer.form) ? "revision" : "ask";
}

export function useBakeDraft(bake: Bake): BakeDraft {
  const [state, set_state] = useState<State>(() => begin(bake));
  const latest = useRef(state);
  latest.current = state;
  const become = (next: State) => {
    latest.current = next;
    set_state(next);
  };
  const name = `bake.${bake.id}`;
  const keep = ({ form, base, revision }: State) => {
    const parent = draft<KeptBake>(name)?.value.parent;
    keep_draft<KeptBake>(name, { form, base, ...(parent ? { parent } : {}) }, revision);
  };

  const see = (newer: Bake) => {
    const now = latest.current;
    switch (meet(now, newer)) {
      case "adopt": return become(saved(newer));
      case "revision": return become({ ...now, revision: newer.revision });
      case "ask": return become({ ...now, other: newer });
    }
  };

  // In a daybook that was put back, revisions begin anew.
  const of_daybook = useRef(epoch.value);
  const [restored, set_restored] = useState(false);
  useEffect(() => {
    const put_back = of_daybook.current !== 0 && of_daybook.current !== epoch.value;
    of_daybook.current = epoch.value;
    if (put_back) set_restored(true);
    if (bake.revision > latest.current.revision || put_back) see(bake);
  }, [bake.revision, bake.saved_at, epoch.value]);

  const send = async (form: Form, revision: number, again = true): Promise<void> => {
    let answer: Bake;
    try {
      answer = await save_bake(bake, revision, form, revision === 0 ? { state: bake.state, tags: bake.tags } : {});
    } catch (error) {
      const current = conflicting<BakeRecord>(error);
      if (!current) throw error;
      if (after_restore(error)) set_restored(true);
      const other = await with_form(current);
      see(other);
      // Only its state or remarks were changed: the recipe is still ours to change.
      if (again && latest.current.revision === other.revision) return send(form, other.revision, false);
      return undefined;
    }
    const now = latest.current;
    if (now.form === form) {
      drop_draft(name);
      become({ ...saved(answer), before: now.before });
    } else {
      const next = { ...now, base: answer.form, revision: answer.revision, other: undefined };
      keep(next);
      become(next);
    }
    return undefined;
  };

  const step = (form: Form, before: readonly Form[]) => {
    const next: State = { ...latest.current, form, before, unsaved: true };
    keep(next);
    become(next);
  };
  const drop = () => {
    const before = latest.current;
    const undo = give_up(name);
    become(saved(before.other ?? bake));
    can_undo("Your changes are dropped.", () => {
      undo();
      become(before);
    });
  };

  return {
    form: state.form,
    unsaved: state.unsaved,
    brought_back: state.brought_back,
    other: state.other,
    restored,
    change: (form) => {
      const now = latest.current;
      if (form !== now.form) step(form, [...now.before, now.form].slice(-most_steps_back));
    },
    undo:
      state.before.length === 0
        ? undefined
        : () => {
            const { before } = latest.current;
            step(before[before.length - 1] as Form, before.slice(0, -1));
          },
    save: () => send(latest.current.form, latest.current.revision),
    discard: drop,
    keep_mine: () => send(latest.current.form, latest.current.other?.revision ?? latest.current.revision),
    take_theirs: drop,
  };
}
