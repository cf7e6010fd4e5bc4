// The oven's answer to a bake: asked at once, and again with every change; the answer before stays until the new one is there.
import { useEffect, useRef, useState } from "preact/hooks";
import { anew, post } from "../api/ask";
import { Newest } from "../api/newest";
import type { OvenAnswer } from "../api/types";
import type { Form } from "./bake";
import { as_they_stand, useOwn } from "./equipment";

interface Out {
  answer: OvenAnswer | undefined;
  error: unknown;
}

export function useOven(form: Form): Out {
  const [state, set_state] = useState<Out>({ answer: undefined, error: undefined });
  const line = useRef<Newest<{ bake: Form }, OvenAnswer>>();
  line.current ??= new Newest<{ bake: Form }, OvenAnswer>(
    (question, signal) => post("/api/oven", question, { signal }),
    (answer) => set_state({ answer, error: undefined }),
    (error) => set_state((before) => ({ ...before, error })),
  );
  const house = as_they_stand(useOwn("oven"));
  useEffect(() => line.current?.ask({ bake: form }), [form, house, anew.value]);
  useEffect(() => () => line.current?.end(), []);
  return state;
}
