// A record of the daybook being changed in a form: what differs is sent with the revision it started from; a change that
// came from elsewhere meanwhile is shown and never written over silently.
import { useState } from "preact/hooks";
import { conflicting, put, words_of } from "../api/ask";

export interface Changing<Record> {
  value: Record;
  unsaved: boolean;
  set: (what: Partial<Record>) => void;
  save: () => Promise<boolean>;
  reset: () => void;
  /** The record as another left it, after a save that came too late. */
  other: Record | undefined;
  wrong: string;
}

export function useChanging<Record extends { id: string; revision: number }>(route: string, record: Record): Changing<Record> {
  const [changes, set_changes] = useState<Partial<Record>>({});
  const [other, set_other] = useState<Record | undefined>(undefined);
  const [wrong, set_wrong] = useState("");
  const send = async (revision: number) => {
    try {
      await put(`${route}/${record.id}`, { ...changes, revision });
      set_changes({});
      set_other(undefined);
      set_wrong("");
      return true;
    } catch (error) {
      const theirs = conflicting<Record>(error);
      if (theirs) set_other(theirs);
      set_wrong(theirs ? "This was changed elsewhere meanwhile. Save again to let yours hold." : words_of(error));
      return false;
    }
  };
  return {
    value: { ...(other ?? record), ...changes },
    unsaved: Object.keys(changes).length > 0,
    set: (what) => set_changes((before) => ({ ...before, ...what })),
    save: () => send((other ?? record).revision),
    reset: () => {
      set_changes({});
      set_other(undefined);
      set_wrong("");
    },
    other,
    wrong,
  };
}

export function SaveRow<Record>({ changing, also }: { changing: Changing<Record>; also?: preact.ComponentChildren }) {
  return (
    <>
      {changing.wrong && (
        <p class="note" role="alert">
          {changing.wrong}
        </p>
      )}
      <div class="row">
        <button type="button" class="main" disabled={!changing.unsaved} onClick={() => void changing.save()}>
          Save
        </button>
        <button type="button" disabled={!changing.unsaved} onClick={changing.reset}>
          As it was
        </button>
        {also}
      </div>
    </>
  );
}
