// How warm the liquid must be, and how much of it ice, by what is warm already; asked once the part is opened.
import { useEffect, useRef, useState } from "preact/hooks";
import { anew, post } from "../../api/ask";
import { Newest } from "../../api/newest";
import type { MixAnswer } from "../../api/types";
import { Figure } from "../../parts/field";
import { Failed, Waiting } from "../../parts/states";
import type { Habits } from "../../say/habits";
import { plain, warmth, warmth_figure, weight } from "../../say/say";
import * as typed from "../../say/typed";
import type { Form } from "../../state/bake";

interface Warm {
  dough_C: number;
  flour_C: number;
  room_C: number;
  tap_C: number;
}

const usual: Warm = { dough_C: 24, flour_C: 20, room_C: 22, tap_C: 12 };
const names = [["dough_C", "The dough is to have"], ["flour_C", "The flour has"], ["room_C", "The room has"], ["tap_C", "The tap gives"]] as const;

export function Liquid({ form, habits }: { form: Form; habits: Habits }) {
  const [open, set_open] = useState(false);
  const [warm, set_warm] = useState(usual);
  return (
    <details class="no-print" onToggle={(e) => set_open(e.currentTarget.open)}>
      <summary>How warm the liquid must be</summary>
      <div class="stack tight">
        <div class="pair">
          {names.map(([key, words]) => (
            <Figure
              key={key}
              label={`${words} (°${habits.warmth})`}
              shown={warmth_figure(warm[key], habits)}
              read={(text) => typed.warmth(text, habits)}
              give={(C) => set_warm((before) => ({ ...before, [key]: C }))}
            />
          ))}
        </div>
        {open && <Answered form={form} warm={warm} habits={habits} />}
      </div>
    </details>
  );
}

function Answered({ form, warm, habits }: { form: Form; warm: Warm; habits: Habits }) {
  const [state, set_state] = useState<{ answer?: MixAnswer; error?: unknown }>({});
  const line = useRef<Newest<Warm & { bake: Form }, MixAnswer>>();
  line.current ??= new Newest<Warm & { bake: Form }, MixAnswer>(
    (question, signal) => post("/api/mix", question, { signal }),
    (answer) => set_state({ answer }),
    (error) => set_state({ error }),
  );
  useEffect(() => line.current?.ask({ bake: form, ...warm }), [form, warm, anew.value]);
  useEffect(() => () => line.current?.end(), []);
  const { answer, error } = state;
  if (error) return <Failed error={error} />;
  if (!answer) return <Waiting what="Reckoning…" />;
  return (
    <div class="stack tight" data-testid="liquid">
      <p>
        <strong class="big">{warmth(answer.liquid_C, habits)}</strong> for {answer.liquid_of.join(", ")}
        {answer.ice_g > 0 && `, and ${weight(answer.ice_g, habits)} of the water as ice`}.
      </p>
      <p class="quiet small">
        The mixer adds about {plain(answer.by_friction_K, 1, habits)} °C
        {Math.abs(answer.by_mixing_alcohol_K) >= 0.05 && `, alcohol meeting water ${plain(answer.by_mixing_alcohol_K, 1, habits)} °C`}.
        {answer.by_factors_C !== null && ` The factor rule says ${warmth(answer.by_factors_C, habits)}; its dough would be off by ${plain(answer.factors_miss_K ?? 0, 1, habits)} °C.`}
      </p>
      {answer.cautions.map((caution) => (
        <p key={caution} class="note small">
          {caution}
        </p>
      ))}
    </div>
  );
}
