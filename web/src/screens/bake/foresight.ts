// The forecast of a recipe while it is being changed, and then how far its drink can go. A change asks at once; the
// answer before stays on the screen until the new one is there.
import { useEffect, useRef, useState } from "preact/hooks";
import { post } from "../../api/ask";
import { Newest } from "../../api/newest";
import type { ForeseeAnswer, ReachAnswer } from "../../api/types";
import type { Form } from "../../state/bake";

const draws = 200;
const draws_for_reach = 100;

export interface Foresight {
  answer: ForeseeAnswer | undefined;
  reach: ReachAnswer | undefined;
  /** Why the recipe as it stands cannot be foreseen; the answer is then the one before. */
  error: unknown;
  asking: boolean;
}

export function useForesight(form: Form): Foresight {
  const [state, set_state] = useState<Foresight>({ answer: undefined, reach: undefined, error: undefined, asking: true });
  const line = useRef<{ foresee: Newest<Form, ForeseeAnswer>; reach: Newest<Form, ReachAnswer> }>();
  line.current ??= make_line(set_state);
  useEffect(() => {
    line.current?.reach.end();
    line.current?.foresee.ask(form);
  }, [form]);
  useEffect(() => () => line.current?.foresee.end(), []);
  return state;
}

function make_line(set: (change: (before: Foresight) => Foresight) => void) {
  const reach = new Newest<Form, ReachAnswer>(
    (bake, signal) => post("/api/reach", { bake, draws: draws_for_reach }, { signal }),
    (answer) => set((before) => ({ ...before, reach: answer })),
    // A bake without a drink has no reach; that is no trouble.
    () => set((before) => ({ ...before, reach: undefined })),
  );
  const foresee = new Newest<Form, ForeseeAnswer>(
    (bake, signal) => post("/api/foresee", { bake, draws }, { signal }),
    (answer, bake) => {
      set((before) => ({ ...before, answer, error: undefined, asking: false }));
      if (answer.bowl.ethanol_in_water_g_per_L > 0.5) reach.ask(bake);
      else set((before) => ({ ...before, reach: undefined }));
    },
    (error) => set((before) => ({ ...before, error, asking: false })),
  );
  return { foresee, reach };
}
