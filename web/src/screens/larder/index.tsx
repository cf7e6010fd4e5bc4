// The larder: own bottles with what is left in them, and everything the program knows of ingredients, with ranges and
// where each number comes from.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { BottleRecordList, BottleRecord, LarderListAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { DayField } from "../../parts/day_field";
import { Choice, Field, Figure } from "../../parts/field";
import { SaveRow, useChanging } from "../../parts/record";
import { choices, matching } from "../../parts/picker";
import { Failed, Refused, Waiting } from "../../parts/states";
import { date, moment_of } from "../../say/clock";
import { plain, useHabits, volume } from "../../say/say";
import * as typed from "../../say/typed";
import { further_lines, further_text, own_name } from "../../state/bottle";
import { useTyping } from "../../state/drafts";
import { useHouse } from "../../state/house";
import { throw_away } from "../../state/undo";
import { LabelFields } from "../bake/bottles";
import { Known } from "./known";
import "./larder.css";

export default function LarderScreen() {
  const bottles = useAnswer<BottleRecordList>("/api/bottles", ["bottle"]);
  const larder = useAnswer<LarderListAnswer>("/api/larder");
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
          {found.slice(0, words ? 60 : at_first).map(({ name }) => {
            const ingredient = by_name.get(name);
            return ingredient ? (
              <li key={ingredient.key}>
                <Known ingredient={ingredient} />
              </li>
            ) : null;
          })}
        </ul>
        {!words && found.length > at_first && <p class="quiet">And {found.length - at_first} more: type a part of the name.</p>}
      </section>
    </div>
  );
}

/** How many stand there before anything is typed. */
const at_first = 12;

const drinks_first = (a: { group: string }, b: { group: string }) => Number(b.group === "drink") - Number(a.group === "drink");

function Bottle({ bottle, drinks }: { bottle: BottleRecord; drinks: readonly string[] }) {
  const habits = useHabits();
  const { house } = useHouse();
  const changing = useChanging<BottleRecord>("/api/bottles", bottle);
  const [wrong, set_wrong] = useState("");
  const { value, set } = changing;
  const opened = bottle.opened_on === null ? undefined : moment_of(`${bottle.opened_on.slice(0, 10)}T00:00`);
  const measure = (label: string, key: "size_mL" | "left_mL" | "whole_bottles") => (
    <Figure label={label} shown={plain(value[key], 0, habits)} read={(text) => typed.number(text.replace(/\s*ml$/i, ""))} give={(n) => set({ [key]: n })} />
  );
  const on_label = (label: string, key: "strength_percent_vol" | "sugar_g_per_L", decimals: number) => (
    <Figure<number | null>
      label={label}
      shown={value[key] === null ? "" : plain(value[key] ?? 0, decimals, habits)}
      read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.number(text))}
      give={(n) => set({ [key]: n })}
    />
  );
  return (
    <details open={changing.unsaved_before}>
      <summary>
        <span class="row apart grow">
          <span>{own_name(bottle)}</span>
          <span class="quiet small">
            {[
              ...(bottle.left_mL > 0 ? [`${volume(bottle.left_mL, habits)} left in the open one`] : []),
              ...(bottle.whole_bottles > 0 ? [`${bottle.whole_bottles} full`] : []),
              ...(opened === undefined ? [] : [`opened ${date(opened, habits)}`]),
            ].join(" · ") || "how much there is: not noted"}
          </span>
        </span>
      </summary>
      <div class="stack">
        <div class="pair">
          <Field label="Name">
            {(attributes) => <input {...attributes} value={value.title} onInput={(e) => set({ title: e.currentTarget.value })} />}
          </Field>
          <Choice label="Most like" value={value.ingredient} options={[...new Set([value.ingredient, ...drinks])].map((d) => [d, d] as const)} give={(ingredient) => set({ ingredient })} />
          {measure("A bottle holds (mL)", "size_mL")}
          {measure("Left in the open one (mL)", "left_mL")}
          {measure("Whole bottles", "whole_bottles")}
          <DayField label="Opened on" empty="not opened" value={value.opened_on?.slice(0, 10) ?? ""} give={(day) => set({ opened_on: day || null })} />
          <Field label={`Price of a bottle (${value.currency || house.currency})`}>
            {(attributes) => <input {...attributes} inputMode="decimal" value={value.price} onInput={(e) => set({ price: e.currentTarget.value.replace(",", "."), currency: value.currency || house.currency })} />}
          </Field>
        </div>
        <h3>What the label says</h3>
        <div class="pair">
          {on_label("Strength (% vol)", "strength_percent_vol", 1)}
          {on_label("Sugar (g/L)", "sugar_g_per_L", 1)}
        </div>
        <LabelFields keys={further_keys} label={further_lines(value.toml)} give={(label) => set({ toml: further_text(label) })} />
        <Field label="Remarks">
          {(attributes) => <textarea {...attributes} value={value.remark} onInput={(e) => set({ remark: e.currentTarget.value })} />}
        </Field>
        <SaveRow
          changing={changing}
          also={
            <button type="button" onClick={() => throw_away("bottles", bottle.id, own_name(bottle)).catch((error: unknown) => set_wrong(words_of(error)))} aria-label={`Into the trash: ${own_name(bottle)}`}>
              Into the trash
            </button>
          }
        />
        <Refused why={wrong} />
      </div>
    </details>
  );
}

const further_keys = ["ph", "acid", "free_sulphite", "total_sulphite"] as const;

function NewBottle({ drinks }: { drinks: readonly string[] }) {
  const typing = useTyping("new.bottle", { name: "", like: "dry mead" });
  const { name, like } = typing.value;
  const [wrong, set_wrong] = useState("");
  const add = async (event: Event) => {
    event.preventDefault();
    try {
      await post<BottleRecord>("/api/bottles", { title: name.trim(), ingredient: like, size_mL: 750 });
      typing.clear();
      set_wrong("");
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <details open={typing.typed_before}>
      <summary>Add a bottle</summary>
      <form class="stack" onSubmit={(e) => void add(e)}>
        <div class="pair">
          <Field label="Name of the bottle" wrong={wrong}>
            {(attributes) => <input {...attributes} value={name} required onInput={(e) => typing.set({ name: e.currentTarget.value })} />}
          </Field>
          <Choice label="Most like" value={like} options={(drinks.length ? drinks : [like]).map((d) => [d, d] as const)} give={(drink) => typing.set({ like: drink })} />
        </div>
        <div>
          <button type="submit" class="main">
            Put it on the shelf
          </button>
        </div>
      </form>
    </details>
  );
}
