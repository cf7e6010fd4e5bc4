// The finished loaves of a bake: weighed in and out, measured, looked at, scored by one's own scores, photographed.
import { useState } from "preact/hooks";
import { ask, post, remove, words_of } from "../../api/ask";
import type { BakeRecord, LoafList, LoafRecord, PhotoList, PhotoRecord } from "../../api/types";
import { useAnswer } from "../../api/use";
import { BakeFrame } from "../../parts/bake_frame";
import { Field, Figure } from "../../parts/field";
import { SaveRow, useChanging } from "../../parts/record";
import { Failed } from "../../parts/states";
import { iso, now } from "../../say/clock";
import { percent, plain, scale_figure, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import type { Params } from "../../shell/places";
import { scores_of_the_house } from "./scores";
import { smaller } from "./photo";
import "./loaf.css";

export default function LoafScreen({ params }: { params: Params }) {
  return <BakeFrame id={params.id ?? ""} here="Loaf">{(record) => <Loaves key={record.id} record={record} />}</BakeFrame>;
}

function Loaves({ record }: { record: BakeRecord }) {
  const held = useAnswer<LoafList>(`/api/bakes/${record.id}/loaves`, ["loaf", "photo"]);
  const [wrong, set_wrong] = useState("");
  const loaves = held.answer?.loaves ?? [];
  const add = () =>
    post<LoafRecord>(`/api/bakes/${record.id}/loaves`, { baked_at: iso(now()) }).then(held.again, (error: unknown) => set_wrong(words_of(error)));
  return (
    <div class="stack">
      {!held.answer && held.error ? <Failed error={held.error} again={held.again} /> : null}
      {held.answer && loaves.length === 0 && <p>No loaf of this bake is written down yet.</p>}
      {wrong && (
        <p class="note" role="alert">
          {wrong}
        </p>
      )}
      <div>
        <button type="button" class="main" onClick={() => void add()}>
          A loaf out of the oven
        </button>
      </div>
      {loaves.map((loaf, i) => (
        <Loaf key={loaf.id} loaf={loaf} number={loaves.length - i} again={held.again} />
      ))}
    </div>
  );
}

function Loaf({ loaf, number, again }: { loaf: LoafRecord; number: number; again: () => void }) {
  const habits = useHabits();
  const changing = useChanging<LoafRecord>("/api/loaves", loaf);
  const { value, set } = changing;
  const [new_score, set_new_score] = useState("");
  const scores = [...new Set([...scores_of_the_house(), ...Object.keys(value.scores)])];
  const weight_field = (label: string, key: "in_g" | "out_g") => (
    <Figure<number | null>
      label={`${label} (${habits.weight})`}
      shown={value[key] === null ? "" : scale_figure(value[key] ?? 0, habits)}
      read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.weight(text, habits))}
      give={(g) => set({ [key]: g })}
    />
  );
  const measure = (label: string, key: "height_mm" | "width_mm" | "spring_ratio") => (
    <Figure<number | null>
      label={label}
      shown={value[key] === null ? "" : plain(value[key] ?? 0, key === "spring_ratio" ? 2 : 0, habits)}
      read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.number(text))}
      give={(n) => set({ [key]: n })}
    />
  );
  return (
    <section class="sheet stack" aria-labelledby={`loaf-${loaf.id}`}>
      <h2 id={`loaf-${loaf.id}`}>Loaf {number}</h2>
      <Photos loaf={loaf} number={number} again={again} />
      <div class="pair">
        <Field label="Baked at">
          {(attributes) => <input {...attributes} type="datetime-local" value={value.baked_at?.slice(0, 16) ?? ""} onInput={(e) => set({ baked_at: e.currentTarget.value || null })} />}
        </Field>
        {weight_field("Into the oven", "in_g")}
        {weight_field("Out of the oven", "out_g")}
        {measure("Height (mm)", "height_mm")}
        {measure("Width (mm)", "width_mm")}
        {measure("Spring in the oven (times)", "spring_ratio")}
      </div>
      {value.in_g !== null && value.out_g !== null && value.in_g > 0 && value.out_g <= value.in_g && (
        <p>
          Lost in the oven: <strong class="figure">{percent(1 - value.out_g / value.in_g, habits)}</strong> of its weight.
        </p>
      )}
      <Field label="The crumb">
        {(attributes) => <textarea {...attributes} value={value.crumb} onInput={(e) => set({ crumb: e.currentTarget.value })} />}
      </Field>
      <fieldset>
        <legend>
          <h3>Scores, from 0 to 10</h3>
        </legend>
        <div class="stack tight">
          {scores.map((name) => (
            <label key={name} class="score">
              <span>{name}</span>
              <input
                type="range"
                min={0}
                max={10}
                step={1}
                value={value.scores[name] ?? 0}
                onInput={(e) => set({ scores: { ...value.scores, [name]: Number(e.currentTarget.value) } })}
              />
              <output class="figure">{value.scores[name] === undefined ? "–" : plain(value.scores[name] ?? 0, 0, habits)}</output>
            </label>
          ))}
          <div class="row">
            <div class="grow">
              <Field label="A score of your own">
                {(attributes) => <input {...attributes} value={new_score} maxLength={40} onInput={(e) => set_new_score(e.currentTarget.value)} />}
              </Field>
            </div>
            <button
              type="button"
              disabled={new_score.trim() === ""}
              onClick={() => {
                set({ scores: { ...value.scores, [new_score.trim()]: 5 } });
                scores_of_the_house(new_score.trim());
                set_new_score("");
              }}
            >
              Add it
            </button>
          </div>
        </div>
      </fieldset>
      <Field label="Remarks">
        {(attributes) => <textarea {...attributes} value={value.remarks} onInput={(e) => set({ remarks: e.currentTarget.value })} />}
      </Field>
      <SaveRow
        changing={changing}
        also={
          <button type="button" onClick={() => void remove(`/api/loaves/${loaf.id}`).then(again)} aria-label={`Throw loaf ${number} into the trash`}>
            Into the trash
          </button>
        }
      />
    </section>
  );
}

function Photos({ loaf, number, again }: { loaf: LoafRecord; number: number; again: () => void }) {
  const held = useAnswer<PhotoList>(`/api/photos?loaf_id=${loaf.id}`, ["photo"]);
  const [said, set_said] = useState("");
  const add = async (file: File | undefined) => {
    if (!file) return;
    set_said("Sending the photo…");
    try {
      await ask<PhotoRecord>("POST", `/api/photos?loaf_id=${loaf.id}`, await smaller(file));
      set_said("The photo is in the daybook.");
      held.again();
      again();
    } catch (error) {
      set_said(words_of(error));
    }
  };
  return (
    <div class="stack tight">
      <ul class="bare photos">
        {held.answer?.photos.map((photo, i) => (
          <li key={photo.id}>
            <a href={`/api/photos/${photo.id}`} target="_blank" rel="noreferrer">
              <img src={`/api/photos/${photo.id}/thumbnail`} alt={photo.remarks || `Photo ${i + 1} of loaf ${number}`} loading="lazy" />
            </a>
            <button type="button" class="plain" aria-label={`Throw photo ${i + 1} of loaf ${number} away`} onClick={() => void remove(`/api/photos/${photo.id}`).then(held.again)}>
              ✕
            </button>
          </li>
        ))}
      </ul>
      <Field label="A photo" hint="JPEG or PNG; kept in the daybook file">
        {(attributes) => (
          <input
            {...attributes}
            type="file"
            accept="image/jpeg,image/png"
            onChange={(e) => {
              void add(e.currentTarget.files?.[0]);
              e.currentTarget.value = "";
            }}
          />
        )}
      </Field>
      <p role="status">{said}</p>
    </div>
  );
}
