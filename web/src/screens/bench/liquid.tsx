// How warm the liquid must be, and how much of it ice, by what is warm already and by the mixer that it is.
import { words_of } from "../../api/ask";
import type { MixAnswer } from "../../api/types";
import { Choice, Figure } from "../../parts/field";
import type { Habits } from "../../say/habits";
import { plain, too_warm_or_cold, warmth, warmth_apart, warmth_figure, warmth_unit, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { useAsked } from "../../state/asked";
import { type Form, bulk_at, stages } from "../../state/bake";
import { type Typing, useTyping } from "../../state/drafts";
import { as_they_stand, the_only, useOwn } from "../../state/equipment";
import { celsius_of } from "../../state/warmth";
import { LearnMixer } from "./learn_mixer";

interface House {
  flour_C: number;
  room_C: number;
  tap_C: number;
  mixer_min: number;
  drinks_C: number | null;
  named: string;
}

const usual: House = { flour_C: 20, room_C: 22, tap_C: 12, mixer_min: 8, drinks_C: null, named: "" };
const names = [["flour_C", "The flour has"], ["room_C", "The room has"], ["tap_C", "The tap gives"]] as const;

/** What is so in the house is kept from bake to bake. */
export function Liquid({ form, habits }: { form: Form; habits: Habits }) {
  const typing = useTyping("water.house", usual);
  const mixers = useOwn("mixer");
  const dough_C = celsius_of(stages(form)[bulk_at(form)]?.temperature) ?? 24;
  const { named: chosen, drinks_C, ...house } = typing.value;
  // A mixer that is gone, or has another name now, is asked no more.
  const named = mixers.some((one) => one.title === chosen) ? chosen : "";
  const asked = { bake: form, dough_C, ...house, ...(drinks_C === null ? {} : { drinks_C }), ...(named === "" ? {} : { named }) };
  const { answer, error } = useAsked<MixAnswer>("/api/mix", asked, as_they_stand(mixers));
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
          <HouseFields typing={typing} habits={habits} />
          {mixers.length > 1 && (
            <Choice
              label="Which mixer"
              value={named}
              options={[["", "not said"] as const, ...mixers.map(({ title }) => [title, title] as const)]}
              give={(name: string) => typing.set({ named: name })}
            />
          )}
        </div>
        {error ? <p class="note">{words_of(error)}</p> : answer && <Answered answer={answer} habits={habits} />}
        <LearnMixer asked={asked} named={named || the_only(mixers)} habits={habits} />
      </div>
    </details>
  );
}

function HouseFields({ typing, habits }: { typing: Typing<House>; habits: Habits }) {
  const { drinks_C, mixer_min } = typing.value;
  return (
    <>
      {names.map(([key, words]) => (
        <Figure
          key={key}
          label={`${words} (°${habits.warmth})`}
          shown={warmth_figure(typing.value[key], habits)}
          read={(text) => typed.warmth(text, habits)}
          give={(C) => typing.set({ [key]: C })}
        />
      ))}
      <Figure<number | undefined>
        label={`The drink has (${warmth_unit(habits)})`}
        hint="empty: it is brought to one temperature with the water"
        shown={drinks_C === null ? "" : warmth_figure(drinks_C, habits)}
        read={typed.or_empty((text) => typed.warmth(text, habits))}
        give={(C) => typing.set({ drinks_C: C ?? null })}
      />
      <Figure label="The mixer runs (min)" shown={plain(mixer_min, 0, habits)} read={typed.number} give={(min) => typing.set({ mixer_min: min })} />
    </>
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
        The mixer adds about {warmth_apart(answer.by_friction_K, habits)}: {answer.friction_words}
        {Math.abs(answer.by_mixing_alcohol_K) >= 0.05 && `. Alcohol meeting water adds ${warmth_apart(answer.by_mixing_alcohol_K, habits)}`}.
        {answer.by_factors_C !== null && ` The factor rule says ${warmth(answer.by_factors_C, habits)}: the dough would come out ${too_warm_or_cold(answer.factors_miss_K ?? 0, habits)}.`}
        {answer.no_rule !== "" && ` The factor rule has no answer: ${answer.no_rule}.`}
      </p>
      {answer.cautions.map((caution) => (
        <p key={caution} class="note small">
          {caution}
        </p>
      ))}
    </div>
  );
}
