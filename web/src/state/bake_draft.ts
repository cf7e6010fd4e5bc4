// One bake being changed: every change is kept as a draft at once, can be undone, and is saved against the revision it
// started from. When another tab or device changed the recipe meanwhile, both are shown and the baker decides.
import { useEffect, useRef, useState } from "preact/hooks";
import { conflicting, put } from "../api/ask";
import type { BakeRecord } from "../api/types";
import type { Form } from "./bake";
import { draft, drop_draft, keep_draft } from "./drafts";

export interface BakeDraft {
  form: Form;
  unsaved: boolean;
  /** Brought back from before a reload; for the words on the screen. */
  brought_back: boolean;
  change: (to: Form) => void;
  undo: (() => void) | undefined;
  save: () => Promise<void>;
  discard: () => void;
  /** The record as another left it, while its recipe differs from the one this draft began with. */
  other: BakeRecord | undefined;
  keep_mine: () => Promise<void>;
  take_theirs: () => void;
}

interface Kept {
  form: Form;
  base: Form;
}

interface State extends Kept {
  revision: number;
  unsaved: boolean;
  brought_back: boolean;
  before: readonly Form[];
  other: BakeRecord | undefined;
}

const most_steps_back = 100;

export const same = (a: Form, b: Form) => JSON.stringify(a) === JSON.stringify(b);

const saved = (record: BakeRecord): State => ({
  form: record.form,
  base: record.form,
  revision: record.revision,
  unsaved: false,
  brought_back: false,
  before: [],
  other: undefined,
});

/** The record with what was typed and not saved laid over it. */
function begin(record: BakeRecord): State {
  const kept = draft<Kept>(`bake.${record.id}`);
  if (!kept?.value.form || !kept.value.base) return saved(record);
  const { form, base } = kept.value;
  const untouched = same(base, record.form);
  return {
    form,
    base,
    revision: untouched ? record.revision : kept.revision,
    unsaved: true,
    brought_back: true,
    before: [base],
    other: untouched ? undefined : record,
  };
}

/** What a newer record means for a draft: the revision only, the whole of it, or a question. */
export function meet<S extends Pick<State, "base" | "unsaved" | "revision" | "other">>(
  draft: S,
  record: BakeRecord,
): "revision" | "adopt" | "ask" {
  if (!draft.unsaved) return "adopt";
  return same(draft.base, record.form) ? "revision" : "ask";
}

export function useBakeDraft(record: BakeRecord): BakeDraft {
  const [state, set_state] = useState<State>(() => begin(record));
  const latest = useRef(state);
  latest.current = state;
  const become = (next: State) => {
    latest.current = next;
    set_state(next);
  };
  const name = `bake.${record.id}`;
  const keep = ({ form, base, revision }: State) => keep_draft<Kept>(name, { form, base }, revision);

  const see = (newer: BakeRecord) => {
    const now = latest.current;
    switch (meet(now, newer)) {
      case "adopt": return become(saved(newer));
      case "revision": return become({ ...now, revision: newer.revision });
      case "ask": return become({ ...now, other: newer });
    }
  };

  useEffect(() => {
    if (record.revision > latest.current.revision) see(record);
  }, [record.revision]);

  const send = async (form: Form, revision: number, again = true): Promise<void> => {
    let answer: BakeRecord;
    try {
      answer = await put<BakeRecord>(`/api/bakes/${record.id}`, { revision, bake: form });
    } catch (error) {
      const other = conflicting<BakeRecord>(error);
      if (!other) throw error;
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
    drop_draft(name);
    become(saved(latest.current.other ?? record));
  };

  return {
    form: state.form,
    unsaved: state.unsaved,
    brought_back: state.brought_back,
    other: state.other,
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
