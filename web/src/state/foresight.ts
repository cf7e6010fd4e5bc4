// The forecast of a recipe while it is being changed. A change asks at once; the answer before stays on the screen until the
// new one is there. A dough that was read is told of as it was read.
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { anew, post } from "../api/ask";
import { Newest } from "../api/newest";
import type { ForeseeAnswer, ReadAnswer } from "../api/types";
import type { Bake } from "../api/bakes";
import type { Form } from "./bake";
import type { ReadOfIt } from "./known_readings";
import { heard_late } from "./ready_watch";
import { useTicks } from "./ticks";

export interface Foresight {
  answer: ForeseeAnswer | undefined;
  /** How many readings the answer rests on. */
  readings: number;
  /** Why the recipe as it stands cannot be foreseen; the answer is then the one before. */
  error: unknown;
  asking: boolean;
}

/** A bake of the daybook, the unsaved change of it, or a recipe and the culture it starts from. */
interface Question {
  bake?: Form;
  bake_id?: string;
  culture_id?: string;
}

/** The question, and what was read of the dough. */
interface Asked {
  question: Question;
  read: ReadOfIt;
}

/** Without a recipe nothing is asked, nor before it is known what was read: `read` has no default, which would stand in for just that. */
export function useForesight(form: Form | undefined, record: Bake | undefined, read: ReadOfIt | undefined): Foresight {
  const [state, set_state] = useState<Foresight>({ answer: undefined, readings: 0, error: undefined, asking: true });
  const line = useRef<Newest<Asked, ForeseeAnswer>>();
  line.current ??= make_line(set_state);
  const as_kept = record !== undefined && record.revision > 0 && form === record.form;
  const question = form && { ...(as_kept ? {} : { bake: form }), ...of_record(record) };
  const ticks = useTicks(question?.bake_id);
  const sent = JSON.stringify([question, record?.revision, read?.key, ticks]);
  useLayoutEffect(() => {
    if (question && read && ticks !== undefined) line.current?.ask({ question, read });
  }, [sent, anew.value]);
  useEffect(() => () => line.current?.end(), []);
  const head = state.answer?.head;
  useEffect(() => {
    if (head && record?.state === "live") heard_late(record.id, head.late);
  }, [head]);
  return state;
}

// A bake of the daybook is asked by its id alone, as on every other screen: the daybook knows its culture.
const of_record = (record: Bake | undefined): Omit<Question, "bake"> => {
  if (record && record.revision > 0) return { bake_id: record.id };
  return record?.culture ? { culture_id: record.culture } : {};
};

/** What the recipe says, told by the doughs that agree with what was read. */
const as_read = (recipe: ForeseeAnswer, { head, stages, to_do, bread, out_of_the_cold, in_the_way, after }: ReadAnswer): ForeseeAnswer => ({
  ...recipe,
  head,
  stages,
  to_do,
  bread,
  out_of_the_cold,
  in_the_way,
  ready: after.ready,
  past_its_best: after.past_its_best,
  chance_never: after.chance_never,
  why_never: after.ready.p50_h === null ? recipe.why_never : null,
  look_again_h: after.next_look?.at_h ?? null,
  rise: after.rise,
});

async function foresee({ question, read: { count, unsent } }: Asked, signal: AbortSignal): Promise<ForeseeAnswer> {
  const recipe = post<ForeseeAnswer>("/api/foresee", question, { signal });
  if (count === 0) return recipe;
  const read = post<ReadAnswer>("/api/read", { ...question, unsent }, { signal });
  return as_read(...(await Promise.all([recipe, read])));
}

const make_line = (set: (change: (before: Foresight) => Foresight) => void) =>
  new Newest<Asked, ForeseeAnswer>(
    foresee,
    (answer, { read }) => set(() => ({ answer, readings: read.count, error: undefined, asking: false })),
    (error) => set((before) => ({ ...before, error, asking: false })),
  );
