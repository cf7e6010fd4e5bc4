// How warm the liquid must be, and how much of it ice, by what is warm already.
import { words_of } from "../../api/ask";
import type { MixAnswer } from "../../api/types";
import { Figure } from "../../parts/field";
import type { Habits } from "../../say/habits";
import { too_warm_or_cold, warmth, warmth_apart, warmth_figure, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { useAsked } from "../../state/asked";
import { type Form, bulk_at, stages } from "../../state/bake";
import { useTyping } from "../../state/drafts";
import { celsius_of } from "../../state/warmth";

const usual = { flour_C: 20, room_C: 22, tap_C: 12 };
const names = [["flour_C", "The flour has"], ["room_C", "The room has"], ["tap_C", "The tap gives"]] as const;

/** The temperatures of the house are kept from bake to bake. */
export function Liquid({ form, habits }: { form: Form; habits: Habits }) {
  const typing = useTyping("water.house", usual);
  const dough_C = celsius_of(stages(form)[bulk_at(form)]?.temperature) ?? 24;
  const { answer, error } = useAsked<MixAnswer>("/api/mix", { bake: form, dough_C, ...typing.value });
  return (
    <details class="no-print">
      <summary>
        <span>
          How warm the liquid must be{answer && !error && [": ", <strong key="C" class="figure">{warmth(answer.liquid_C, habits)}</strong>]}
          {answer && !error && answer.ice_g >= 1 && `, ${weight(answer.ice_g, habits)} of it as ice`}{" "}
          <span class="quiet small">for a dough of {warmth(dough_C, habits)}</span>
        </span>
      </summary>
      <div class="stack tight">
        <div class="pair">
          {names.map(([key, words]) => (
            <Figure
              key={key}
              label={`${words} (°${habits.warmth})`}
              shown={warmth_figure(typing.value[key], habits)}
              read={(text) => typed.warmth(text, habits)}
              give={(C) => typing.set({ [key]: C })}
            />
          ))}
        </div>
        {error ? <p class="note">{words_of(error)}</p> : answer && <Answered answer={answer} habits={habits} />}
      </div>
    </details>
  );
}

function Answered({ answer, habits }: { answer: MixAnswer; habits: Habits }) {
  return (
    <div class="stack tight" data-testid="liquid">
      <p>
        <strong class="big">{warmth(answer.liquid_C, habits)}</strong> for {answer.liquid_of.join(", ")}
        {answer.ice_g > 0 && `, and ${weight(answer.ice_g, habits)} of the water as ice`}.
      </p>
      <p class="quiet small">
        The mixer adds about {warmth_apart(answer.by_friction_K, habits)}
        {Math.abs(answer.by_mixing_alcohol_K) >= 0.05 && `, alcohol meeting water ${warmth_apart(answer.by_mixing_alcohol_K, habits)}`}.
        {answer.by_factors_C !== null && ` The factor rule says ${warmth(answer.by_factors_C, habits)}: the dough would come out ${too_warm_or_cold(answer.factors_miss_K ?? 0, habits)}.`}
      </p>
      {answer.cautions.map((caution) => (
        <p key={caution} class="note small">
          {caution}
        </p>
      ))}
    </div>
  );
}
