// The forecast of a recipe while it is being changed, and then how far its drink can go. A change asks at once; the
// answer before stays on the screen until the new one is there.
import { useEffect, useRef, useState } from "preact/hooks";
import { anew, post } from "../api/ask";
import { Newest } from "../api/newest";
import type { ForeseeAnswer, ReachAnswer } from "../api/types";
import type { Form } from "./bake";

const draws = 200;
const draws_for_reach = 100;

export interface Foresight {
  answer: ForeseeAnswer | undefined;
  reach: ReachAnswer | undefined;
  /** Why the recipe as it stands cannot be foreseen; the answer is then the one before. */
  error: unknown;
  asking: boolean;
}

/** A recipe, and the culture of the daybook it starts from. */
interface Question {
  bake: Form;
  culture_id?: string;
}

/** Without a recipe nothing is asked. */
export function useForesight(form: Form | undefined, culture: string | null): Foresight {
  const [state, set_state] = useState<Foresight>({ answer: undefined, reach: undefined, error: undefined, asking: true });
  const line = useRef<{ foresee: Newest<Question, ForeseeAnswer>; reach: Newest<Question, ReachAnswer> }>();
  line.current ??= make_line(set_state);
  const sent = JSON.stringify(form);
  useEffect(() => {
    line.current?.reach.end();
    if (form) line.current?.foresee.ask({ bake: form, ...(culture ? { culture_id: culture } : {}) });
  }, [sent, culture, anew.value]);
  useEffect(() => () => line.current?.foresee.end(), []);
  return state;
}

function make_line(set: (change: (before: Foresight) => Foresight) => void) {
  const reach = new Newest<Question, ReachAnswer>(
    (question, signal) => post("/api/reach", { ...question, draws: draws_for_reach }, { signal }),
    (answer) => set((before) => ({ ...before, reach: answer })),
    // A bake without a drink has no reach; that is no trouble.
    () => set((before) => ({ ...before, reach: undefined })),
  );
  const foresee = new Newest<Question, ForeseeAnswer>(
    (question, signal) => post("/api/foresee", { ...question, draws }, { signal }),
    (answer, question) => {
      set((before) => ({ ...before, answer, error: undefined, asking: false }));
      if (answer.bowl.ethanol_in_water_g_per_L > 0.5) reach.ask(question);
      else set((before) => ({ ...before, reach: undefined }));
    },
    (error) => set((before) => ({ ...before, error, asking: false })),
  );
  return { foresee, reach };
}
