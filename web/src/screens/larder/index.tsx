// The larder: own bottles with what is left in them, and everything the program knows of ingredients, with ranges and
// where each number comes from.
import { useState } from "preact/hooks";
import { post, remove, words_of } from "../../api/ask";
import type { BottleList, BottleRecord, LarderAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice, Field, Figure } from "../../parts/field";
import { SaveRow, useChanging } from "../../parts/record";
import { choices, matching } from "../../parts/picker";
import { Failed, Waiting } from "../../parts/states";
import { date, moment_of } from "../../say/clock";
import { plain, useHabits, volume } from "../../say/say";
import * as typed from "../../say/typed";
import { LabelFields } from "../bake/bottles";
import { Known } from "./known";
import "./larder.css";

export default function LarderScreen() {
  const bottles = useAnswer<BottleList>("/api/bottles", ["bottle"]);
  const larder = useAnswer<LarderAnswer>("/api/larder");
  const [words, set_words] = useState("");
  const all = larder.answer?.ingredients ?? [];
  const drinks = all.filter((i) => i.group === "drink").map((i) => i.name);
  const found = matching(choices([...all].sort(drinks_first), []), words);
  const by_name = new Map(all.map((i) => [i.name, i]));
  return (
    <div class="stack">
      <h1>Larder</h1>
      <section class="stack tight" aria-labelledby="own">
        <h2 id="own">Own bottles</h2>
        {bottles.answer?.bottles.length === 0 && <p class="quiet">None written down yet.</p>}
        {!bottles.answer && bottles.error ? <Failed error={bottles.error} again={bottles.again} /> : null}
        <ul class="bare stack tight">
          {bottles.answer?.bottles.map((bottle) => (
            <li key={bottle.id} class="sheet">
              <Bottle bottle={bottle} drinks={drinks} />
            </li>
          ))}
        </ul>
        <NewBottle drinks={drinks} />
      </section>
      <section class="stack tight" aria-labelledby="known">
        <h2 id="known">What the larder knows</h2>
        <Field label="A name, or a group such as drink">
          {(attributes) => <input {...attributes} type="search" value={words} onInput={(e) => set_words(e.currentTarget.value)} />}
        </Field>
        {!larder.answer && (larder.error ? <Failed error={larder.error} again={larder.again} /> : <Waiting what="Opening the larder…" />)}
        {larder.answer && found.length === 0 && <p>The larder has nothing of that name.</p>}
        <ul class="bare larder-list">
          {found.slice(0, words ? 60 : 24).map(({ name }) => {
            const ingredient = by_name.get(name);
            return ingredient ? (
              <li key={ingredient.key}>
                <Known ingredient={ingredient} />
              </li>
            ) : null;
          })}
        </ul>
        {!words && found.length > 24 && <p class="quiet">And {found.length - 24} more: type a part of the name.</p>}
      </section>
    </div>
  );
}

const drinks_first = (a: { group: string }, b: { group: string }) => Number(b.group === "drink") - Number(a.group === "drink");

function Bottle({ bottle, drinks }: { bottle: BottleRecord; drinks: readonly string[] }) {
  const habits = useHabits();
  const changing = useChanging<BottleRecord>("/api/bottles", bottle);
  const { value, set } = changing;
  const opened = bottle.opened_at === null ? undefined : moment_of(bottle.opened_at.length === 10 ? `${bottle.opened_at}T00:00` : bottle.opened_at);
  const millilitres = (text: string): typed.Typed<number | null> => (text.trim() === "" ? { ok: true, value: null } : typed.number(text.replace(/\s*ml$/i, "")));
  return (
    <details>
      <summary>
        <span class="row apart grow">
          <span>{bottle.name}</span>
          <span class="quiet small">
            {bottle.left_mL !== null && `${volume(bottle.left_mL, habits)} left`}
            {bottle.left_mL !== null && bottle.size_mL !== null && ` of ${volume(bottle.size_mL, habits)}`}
            {opened !== undefined && ` · opened ${date(opened)}`}
          </span>
        </span>
      </summary>
      <div class="stack">
        <div class="pair">
          <Field label="Name">
            {(attributes) => <input {...attributes} value={value.name} onInput={(e) => set({ name: e.currentTarget.value })} />}
          </Field>
          <Choice label="Most like" value={value.like} options={[...new Set([value.like, ...drinks])].map((d) => [d, d || "not said"] as const)} give={(like) => set({ like })} />
          <Figure<number | null> label="Holds (mL)" shown={value.size_mL === null ? "" : plain(value.size_mL, 0, habits)} read={millilitres} give={(size_mL) => set({ size_mL })} />
          <Figure<number | null> label="Left (mL)" shown={value.left_mL === null ? "" : plain(value.left_mL, 0, habits)} read={millilitres} give={(left_mL) => set({ left_mL })} />
          <Field label="Opened on">
            {(attributes) => (
              <input {...attributes} type="date" value={value.opened_at?.slice(0, 10) ?? ""} onInput={(e) => set({ opened_at: e.currentTarget.value ? `${e.currentTarget.value}T00:00` : null })} />
            )}
          </Field>
          <Figure<number | null>
            label={`Price (${value.currency || "money"})`}
            shown={value.price === null ? "" : plain(value.price, 2, habits)}
            read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.number(text))}
            give={(price) => set({ price })}
          />
        </div>
        <h3>What the label says</h3>
        <LabelFields label={value.label} give={(label) => set({ label })} />
        <Field label="Remarks">
          {(attributes) => <textarea {...attributes} value={value.remarks} onInput={(e) => set({ remarks: e.currentTarget.value })} />}
        </Field>
        <SaveRow
          changing={changing}
          also={
            <button type="button" onClick={() => void remove(`/api/bottles/${bottle.id}`)} aria-label={`Throw ${bottle.name} into the trash`}>
              Into the trash
            </button>
          }
        />
      </div>
    </details>
  );
}

function NewBottle({ drinks }: { drinks: readonly string[] }) {
  const [name, set_name] = useState("");
  const [like, set_like] = useState("dry mead");
  const [wrong, set_wrong] = useState("");
  const add = async (event: Event) => {
    event.preventDefault();
    try {
      await post<BottleRecord>("/api/bottles", { name: name.trim(), like });
      set_name("");
      set_wrong("");
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <details>
      <summary>A bottle more</summary>
      <form class="stack" onSubmit={(e) => void add(e)}>
        <div class="pair">
          <Field label="Name of the bottle" wrong={wrong}>
            {(attributes) => <input {...attributes} value={name} required onInput={(e) => set_name(e.currentTarget.value)} />}
          </Field>
          <Choice label="Most like" value={like} options={(drinks.length ? drinks : [like]).map((d) => [d, d] as const)} give={set_like} />
        </div>
        <div>
          <button type="submit" class="main">
            Onto the shelf
          </button>
        </div>
      </form>
    </details>
  );
}
