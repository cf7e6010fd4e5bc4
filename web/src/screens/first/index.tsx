// The first bake, on one screen: flour, liquid and how much of it is which drink, levain, salt, and when. What comes of it stands
// below as soon as flour and liquid are there; nothing is kept before the button is pressed.
import { useState } from "preact/hooks";
import { words_of } from "../../api/ask";
import { new_bake } from "../../api/bakes";
import type { LarderListAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { AnswerTop } from "../../parts/answer_top";
import { Choice, Field, Figure } from "../../parts/field";
import { WhenField } from "../../parts/when_field";
import { after, exact_moment, iso, moment_of, now } from "../../say/clock";
import { plain, scale_figure, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { go, link } from "../../shell/router";
import { type Form, blank } from "../../state/bake";
import { useTyping } from "../../state/drafts";
import { useForesight } from "../../state/foresight";
import { never_read } from "../../state/known_readings";
import { Refused } from "../../parts/states";

interface Typed {
  name: string;
  flour: string;
  flour_g: number | null;
  liquid_g: number | null;
  drink: string;
  /** Of the liquid, in percent. */
  share: number;
  strength: number | null;
  levain_g: number | null;
  salt_g: number | null;
  goal: "mixed" | "ready";
  at: string;
}

const nothing: Typed = {
  name: "My first bake",
  flour: "white bread flour",
  flour_g: null,
  liquid_g: null,
  drink: "water",
  share: 50,
  strength: null,
  levain_g: null,
  salt_g: null,
  goal: "mixed",
  at: "",
};

const usual_levain = 0.2;
const usual_salt = 0.02;
const g = (of: number) => `${Math.round(of * 10) / 10} g`;

/** The bake that these fields say; nothing before flour and liquid are there. */
export function form_of(said: Typed, mixed: string): Form | undefined {
  const { flour_g, liquid_g } = said;
  if (!flour_g || !liquid_g) return undefined;
  const poured = said.drink === "water" ? 0 : (liquid_g * said.share) / 100;
  return {
    ...blank,
    name: said.name,
    mixed,
    pieces: 1,
    piece: undefined,
    bowl: {
      [said.flour]: g(flour_g),
      ...(poured > 0 ? { [said.drink]: g(poured) } : {}),
      ...(liquid_g - poured > 0 ? { water: g(liquid_g - poured) } : {}),
      salt: g(said.salt_g ?? usual_salt * flour_g),
      levain: g(said.levain_g ?? usual_levain * flour_g),
    },
    ...(poured > 0 && said.strength !== null ? { bottle: { [said.drink]: { strength: `${said.strength} % vol` } } } : {}),
  };
}

export default function FirstScreen() {
  const habits = useHabits();
  const larder = useAnswer<LarderListAnswer>("/api/larder").answer?.ingredients ?? [];
  const typing = useTyping<Typed>("first", nothing);
  const said = typing.value;
  const [wrong, set_wrong] = useState("");
  const [begun] = useState(now);
  const wanted = moment_of(said.at);
  const asked = form_of(said, `${iso(said.goal === "mixed" ? (wanted ?? begun) : begun)}:00`);
  const foresight = useForesight(asked, undefined, never_read);
  const ready_h = foresight.answer?.ready.p50_h;
  const mixed = said.goal === "mixed" || wanted === undefined ? (said.goal === "mixed" ? (wanted ?? begun) : begun) : after(wanted, -(ready_h ?? 0));
  const form = form_of(said, `${iso(mixed)}:00`);
  const named = (group: string) => larder.filter((i) => i.group === group).map((i) => [i.name, i.name] as const);
  const flours = named("flour");
  const mass = (label: string, key: "flour_g" | "liquid_g" | "levain_g" | "salt_g", usual: number | undefined, focus = false) => (
    <Figure<number | null>
      label={`${label} (${habits.weight})`}
      shown={said[key] === null ? "" : scale_figure(said[key] ?? 0, habits)}
      read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.weight(text, habits))}
      give={(of) => typing.set({ [key]: of })}
      input={{ autoFocus: focus, ...(usual === undefined ? {} : { placeholder: scale_figure(usual, habits) }) }}
    />
  );
  const keep = async (event: Event) => {
    event.preventDefault();
    if (!form) return set_wrong("Flour and liquid are wanted: type both.");
    try {
      const made = await new_bake(form, { state: "planned" });
      typing.clear();
      go(link("bake", made.id), true);
    } catch (error) {
      set_wrong(words_of(error));
    }
    return undefined;
  };
  return (
    <form class="stack first" onSubmit={(event) => void keep(event)}>
      <h1>My first bake</h1>
      <div class="first-columns">
        <div class="stack">
          <div class="pair">
            {mass("Flour", "flour_g", undefined, true)}
            {mass("Liquid, all of it", "liquid_g", undefined)}
          </div>
          <div class="pair">
            <Choice label="The drink in it" value={said.drink} options={[["water", "none yet, just water"], ...named("drink")]} give={(drink) => typing.set({ drink })} />
            {said.drink !== "water" && [
              <Figure key="share" label="of the liquid (%)" shown={plain(said.share, 0, habits)} read={typed.percent} give={(share) => share <= 100 && typing.set({ share })} />,
              <Figure<number | null>
                key="strength"
                label="Strength (% vol)"
                shown={said.strength === null ? "" : plain(said.strength, 1, habits)}
                read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.percent(text.replace(/\s*vol\s*$/i, "")))}
                give={(strength) => typing.set({ strength })}
                input={{ placeholder: "as such drinks are" }}
              />,
            ]}
          </div>
          <div class="pair">
            <Choice label="Flour" value={said.flour} options={flours.length ? flours : [[said.flour, said.flour]]} give={(flour) => typing.set({ flour })} />
            {mass("Levain", "levain_g", said.flour_g === null ? undefined : usual_levain * said.flour_g)}
            {mass("Salt", "salt_g", said.flour_g === null ? undefined : usual_salt * said.flour_g)}
          </div>
          <div class="pair">
            <Choice label="What is set" value={said.goal} options={[["mixed", "when I mix it"], ["ready", "when it shall be ready to divide"]]} give={(goal) => typing.set({ goal })} />
            <WhenField label={said.goal === "mixed" ? "Mixed at" : "Ready at"} empty={said.goal === "mixed" ? "now" : "choose a day"} value={said.at} give={(at) => typing.set({ at })} />
          </div>
          <Field label="Name">{(attributes) => <input {...attributes} value={said.name} maxLength={200} onInput={(e) => typing.set({ name: e.currentTarget.value })} />}</Field>
        </div>
        <div class="stack first-answer" aria-live="polite">
          {form ? (
            <>
              <AnswerTop foresight={foresight} mixed={mixed} />
              {said.goal === "ready" && wanted !== undefined && ready_h != null && (
                <p>
                  Mix it at <strong class="figure">{exact_moment(mixed, habits)}</strong>.
                </p>
              )}
            </>
          ) : (
            <p class="quiet">When it is ready stands here as soon as flour and liquid are typed.</p>
          )}
        </div>
      </div>
      <Refused why={wrong} />
      <div class="keep-row">
        <button type="submit" class="main">
          Keep this bake
        </button>
      </div>
    </form>
  );
}
