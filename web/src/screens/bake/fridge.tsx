// The pieces in the house's fridge: how far its air warms, when they are cold, how many go in at once; learned from a probe in
// its air. What is asked of the fridge is no part of the recipe and is kept from bake to bake.
import { useState } from "preact/hooks";
import type { FridgeAnswer } from "../../api/types";
import { Choice, Figure } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { Learn, ProbeFile } from "../../parts/learn";
import { Failed, Waiting } from "../../parts/states";
import * as say from "../../say/fridge";
import type { Habits } from "../../say/habits";
import { plain, useHabits, warmth, warmth_apart, warmth_figure, warmth_unit, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { useAsked } from "../../state/asked";
import { type Form, stages } from "../../state/bake";
import { type Typing, useTyping } from "../../state/drafts";
import { as_they_stand, the_only, useOwn } from "../../state/equipment";

interface Asked {
  named: string;
  set_C: number | null;
  wanted_C: number | null;
  within_h: number | null;
}

const usual: Asked = { named: "", set_C: null, wanted_C: null, within_h: null };

export function Fridge({ form }: { form: Form }) {
  const habits = useHabits();
  const cold = stages(form).find((stage) => stage.do === "cold");
  return (
    <Fold title="The fridge" fact={cold ? String(cold.temperature ?? "") : "no night in it"} seldom>
      <Chilled form={form} habits={habits} />
    </Fold>
  );
}

/** What was typed of it, with nothing left out that was. */
const typed_of = (asked: Asked) => Object.fromEntries(Object.entries(asked).filter(([, value]) => value !== null && value !== ""));

function Chilled({ form, habits }: { form: Form; habits: Habits }) {
  const own = useOwn("fridge");
  const typing = useTyping("fridge.house", usual);
  // A fridge that is gone, or has another name now, is asked no more.
  const named = own.some((one) => one.title === typing.value.named) ? typing.value.named : "";
  const [pieces, set_pieces] = useState<number | undefined>(undefined);
  const asked = { bake: form, ...typed_of({ ...typing.value, named }), ...(pieces === undefined ? {} : { pieces }) };
  const { answer, error } = useAsked<FridgeAnswer>("/api/fridge", asked, as_they_stand(own));
  return (
    <>
      <div class="pair">
        {own.length > 1 && (
          <Choice
            label="Which fridge"
            value={named}
            options={[["", "not said"] as const, ...own.map(({ title }) => [title, title] as const)]}
            give={(name: string) => typing.set({ named: name })}
          />
        )}
        <Figure<number | undefined>
          label="Pieces at once"
          hint="empty: all of the bake's"
          shown={pieces === undefined ? "" : String(pieces)}
          read={typed.or_empty(typed.number)}
          give={set_pieces}
        />
        <Warmths typing={typing} habits={habits} />
        <Figure<number | undefined>
          label="Within (h)"
          hint="such as 4; empty: 5"
          shown={typing.value.within_h === null ? "" : plain(typing.value.within_h, 1, habits)}
          read={typed.or_empty(typed.lasting)}
          give={(h) => typing.set({ within_h: h ?? null })}
        />
      </div>
      {answer ? <Out answer={answer} error={error} habits={habits} /> : error ? <Failed error={error} /> : <Waiting what="Cooling…" />}
      <LearnFridge asked={asked} named={named || the_only(own)} habits={habits} />
    </>
  );
}

const warmths = [
  ["set_C", "Set to", 4, () => "as the house's is, or as the recipe says"],
  ["wanted_C", "Each is to have", 8, (habits: Habits) => `${warmth(10, habits)} in its middle`],
] as const;

function Warmths({ typing, habits }: { typing: Typing<Asked>; habits: Habits }) {
  return (
    <>
      {warmths.map(([key, words, such_as, empty]) => {
        const at = typing.value[key];
        return (
          <Figure<number | undefined>
            key={key}
            label={`${words} (${warmth_unit(habits)})`}
            hint={`such as ${warmth_figure(such_as, habits)}; empty: ${empty(habits)}`}
            shown={at === null ? "" : warmth_figure(at, habits)}
            read={typed.or_empty((text) => typed.warmth(text, habits))}
            give={(C) => typing.set({ [key]: C ?? null })}
          />
        );
      })}
    </>
  );
}

function Out({ answer, error, habits }: { answer: FridgeAnswer; error: unknown; habits: Habits }) {
  const facts = [
    ["In it", `${answer.pieces} ${answer.pieces === 1 ? "piece" : "pieces"} of ${weight(answer.piece_g, habits)}, ${warmth(answer.start_C, habits)} as they go in`],
    ["Air", say.air(answer, habits)],
    ["Middle", say.middle(answer, habits)],
    ["At once", say.at_once(answer, habits)],
    ["Power", say.power(answer)],
  ];
  return (
    <section class={error ? "stack tight old" : "stack tight"} aria-labelledby="fridge">
      <h3 id="fridge">At {warmth(answer.set_C, habits)}</h3>
      {error ? <Failed error={error} /> : null}
      <dl class="between" data-testid="fridge">
        {facts.flatMap(([name, words]) => [<dt key={name}>{name}</dt>, <dd key={words}>{words}</dd>])}
      </dl>
    </section>
  );
}

function LearnFridge({ asked, named, habits }: { asked: object; named: string; habits: Habits }) {
  const [probe, set_probe] = useState<string | undefined>(undefined);
  return (
    <Learn<FridgeAnswer>
      what="fridge"
      title="Learn this fridge from a probe in its air"
      how="A thermometer in its air, its file as minutes and celsius from the moment so many pieces came in, for an hour at least."
      named={named}
      path="/api/fridge"
      asked={{ ...asked, ...(probe === undefined ? {} : { probe }) }}
      complete={probe !== undefined}
      said={({ air_off_K }) => `its air within ${warmth_apart(air_off_K ?? 0, habits)} of the probe. What is asked of it uses that from now on.`}
    >
      <ProbeFile give={set_probe} />
    </Learn>
  );
}
