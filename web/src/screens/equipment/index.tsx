// The house's own ovens, fridges and mixers: what each can do, what was learned of it, and the way into the trash.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { EquipmentRecord, EquipmentRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice, Field, Tick } from "../../parts/field";
import { Measure } from "../../parts/measure";
import { SaveRow, useChanging } from "../../parts/record";
import { Failed, Refused, Waiting } from "../../parts/states";
import { date, from_utc } from "../../say/clock";
import { learned_from } from "../../say/equipment";
import { useHabits } from "../../say/say";
import { useTyping } from "../../state/drafts";
import { type Kind, lessons_of, line_of, with_line } from "../../state/equipment";
import { throw_away } from "../../state/undo";

/** What each can do: the key, the words, the unit, an example. */
const measures: Record<Kind, readonly (readonly [string, string, string, string])[]> = {
  oven: [
    ["holds", "Loaves it takes at once", "", "6"],
    ["cavity", "It holds (L)", "L", "60"],
    ["power", "It draws (kW)", "kW", "3"],
  ],
  fridge: [
    ["set", "Set to", "C", "4"],
    ["power", "Heat it can take out (W)", "W", "120"],
    ["air", "Heat of air, shelves and walls (kJ/K)", "kJ/K", "20"],
  ],
  mixer: [["friction", "Heat it gives a dough (W/kg)", "W/kg", "20"]],
};

const ticks: Record<Kind, readonly (readonly [string, string])[]> = {
  oven: [
    ["stone", "A hot stone or steel in it"],
    ["fan", "With a fan"],
  ],
  fridge: [],
  mixer: [],
};

const how: Record<Kind, string> = {
  oven: "An oven is learned from a core probe's file and a weighed loaf: at the foot of a recipe, under The oven.",
  fridge: "A fridge is learned from a probe in its air: at the foot of a recipe, under The fridge.",
  mixer: "A mixer is learned from two readings of a dough in it: on a bench sheet, under How warm the liquid must be.",
};

export default function EquipmentScreen() {
  const held = useAnswer<EquipmentRecordList>("/api/equipment", ["equipment"]);
  const { answer, error } = held;
  if (!answer) return error ? <Failed error={error} again={held.again} /> : <Waiting what="Looking round the house…" />;
  return (
    <div class="stack">
      <h1>Ovens, fridges, mixers</h1>
      <p>
        {answer.equipment.length === 0 && "None is written down yet. "}A bake is answered for the oven it names, or for the only one there is; questions about a fridge or a mixer likewise.
      </p>
      <ul class="bare stack tight">
        {answer.equipment.map((one) => (
          <li key={one.id} class="sheet">
            <One one={one} />
          </li>
        ))}
      </ul>
      <NewOne />
    </div>
  );
}

/** A bare number stands as it is, everything else in quotes. */
const as_toml = (text: string | undefined) => (text === undefined || text === "" ? undefined : /^\d+$/.test(text) ? text : JSON.stringify(text));

function One({ one }: { one: EquipmentRecord }) {
  const habits = useHabits();
  const changing = useChanging<EquipmentRecord>("/api/equipment", one);
  const [wrong, set_wrong] = useState("");
  const { value, set } = changing;
  const lessons = lessons_of(value);
  const give = (key: string, text: string | undefined) => set({ toml: with_line(value.toml, key, text) });
  return (
    <details open={changing.unsaved_before}>
      <summary>
        <span class="row apart grow">
          <span>{one.title}</span>
          <span class="quiet small">{[one.what, learned_from(one, habits)].filter(Boolean).join(" · ")}</span>
        </span>
      </summary>
      <div class="stack">
        <div class="pair">
          <Field label="Name">
            {(attributes) => <input {...attributes} value={value.title} onInput={(e) => set({ title: e.currentTarget.value })} />}
          </Field>
          {measures[one.what].map(([key, words, unit, such_as]) => (
            <Measure key={key} label={words} unit={unit} text={line_of(value.toml, key)} such_as={such_as} give={(text) => give(key, as_toml(text))} />
          ))}
        </div>
        {ticks[one.what].map(([key, words]) => (
          <Tick key={key} label={words} value={line_of(value.toml, key) === "true"} give={(on) => give(key, on ? "true" : undefined)} />
        ))}
        {lessons.length === 0 ? (
          <p class="quiet small">{how[one.what]}</p>
        ) : (
          <section class="stack tight">
            <h2>Learned from</h2>
            <ul>
              {lessons.map((lesson) => {
                const at = from_utc(lesson.at);
                return (
                  <li key={lesson.at}>
                    {lesson.bake}, {at === undefined ? lesson.at : date(at, habits)}
                  </li>
                );
              })}
            </ul>
            <div>
              <button type="button" onClick={() => set({ measured: "", toml: with_line(value.toml, "learned", undefined) })}>
                Forget what it learned
              </button>
            </div>
          </section>
        )}
        <Field label="Remarks">
          {(attributes) => <textarea {...attributes} value={value.remark} onInput={(e) => set({ remark: e.currentTarget.value })} />}
        </Field>
        <SaveRow
          changing={changing}
          also={
            <button type="button" onClick={() => throw_away("equipment", one.id, one.title).catch((error: unknown) => set_wrong(words_of(error)))} aria-label={`Into the trash: ${one.title}`}>
              Into the trash
            </button>
          }
        />
        <Refused why={wrong} />
      </div>
    </details>
  );
}

function NewOne() {
  const typing = useTyping("new.equipment", { name: "", what: "oven" as Kind });
  const { name, what } = typing.value;
  const [wrong, set_wrong] = useState("");
  const add = async (event: Event) => {
    event.preventDefault();
    try {
      await post<EquipmentRecord>("/api/equipment", { title: name.trim(), what });
      typing.clear();
      set_wrong("");
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <details open={typing.typed_before}>
      <summary>Add one</summary>
      <form class="stack" onSubmit={(e) => void add(e)}>
        <div class="pair">
          <Field label="Its name" wrong={wrong}>
            {(attributes) => <input {...attributes} value={name} required onInput={(e) => typing.set({ name: e.currentTarget.value })} />}
          </Field>
          <Choice label="It is" value={what} options={[["oven", "an oven"], ["fridge", "a fridge"], ["mixer", "a mixer"]] as const} give={(kind) => typing.set({ what: kind })} />
        </div>
        <div>
          <button type="submit" class="main">
            Write it down
          </button>
        </div>
      </form>
    </details>
  );
}
