// The finished loaves of a bake: weighed in and out, measured, looked at, scored by one's own scores, photographed.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import type { LoafRecord, LoafRecordList, PhotoRecordList, ScaleRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { BakeFrame } from "../../parts/bake_frame";
import { Field, Figure } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { SaveRow, useChanging } from "../../parts/record";
import { Failed, Refused } from "../../parts/states";
import { from_utc, iso, moment_of, now, to_utc } from "../../say/clock";
import { percent, plain, scale_figure, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import type { Params } from "../../shell/names";
import { link } from "../../shell/router";
import { useTyping } from "../../state/drafts";
import { id_of, loaves_of, new_id, outbox, photos_of } from "../../state/outbox";
import { throw_away } from "../../state/undo";
import { useWaiting } from "../../state/waiting";
import { smaller } from "./photo";
import "./loaf.css";
import { WhenField } from "../../parts/when_field";

export default function LoafScreen({ params }: { params: Params }) {
  return <BakeFrame id={params.id ?? ""} here="Loaf">{(record) => <Loaves key={record.id} record={record} />}</BakeFrame>;
}

function Loaves({ record }: { record: Bake }) {
  const held = useAnswer<LoafRecordList>(`/api/loaves?owner=${record.id}&limit=200`, ["loaf", "photo"]);
  const [wrong, set_wrong] = useState("");
  const loaves = held.answer?.loaves ?? [];
  const on_the_way = loaves_of(useWaiting(), record.id).filter((one) => !loaves.some((loaf) => loaf.id === one.id));
  const add = async () => {
    try {
      await (await outbox()).add({ loaf: { id: new_id(), bake: record.id, baked_at: to_utc(now()) } });
      held.again();
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <div class="stack">
      {!held.answer && held.error ? <Failed error={held.error} again={held.again} /> : null}
      {held.answer && loaves.length + on_the_way.length === 0 && <p>No loaf of this bake is written down yet.</p>}
      <Refused why={wrong} />
      <div>
        <button type="button" class="main" onClick={() => void add()}>
          A loaf out of the oven
        </button>{" "}
        <a class="button" href={link("bake", record.id, "show")}>
          Show it
        </a>
      </div>
      {on_the_way.map((loaf, i) => (
        <section key={loaf.id} class="sheet stack" aria-labelledby={`loaf-${loaf.id}`}>
          <h2 id={`loaf-${loaf.id}`}>Loaf {loaves.length + on_the_way.length - i}</h2>
          <p class="quiet">Kept in this browser until the server is back; then it can be weighed and measured.</p>
          <PhotoField loaf={loaf.id} sent={() => undefined} />
        </section>
      ))}
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
  const scoring = useTyping(`score.${loaf.id}`, { name: "" });
  const new_score = scoring.value.name;
  const [wrong, set_wrong] = useState("");
  const scales = useAnswer<ScaleRecordList>("/api/scales?limit=100", ["scale"]).answer?.scales ?? [];
  const scale_of = (title: string) => scales.find((s) => s.title === title) ?? { title, low: 0, high: 10, low_words: "", high_words: "" };
  const scores = [...new Set([...scales.map((s) => s.title), ...Object.keys(value.scores)])].map(scale_of);
  const define_scale = async () => {
    const title = new_score.trim();
    scoring.clear();
    set({ scores: { ...value.scores, [title]: value.scores[title] ?? 5 } });
    try {
      if (!scales.some((s) => s.title === title)) await post("/api/scales", { title, low: 0, high: 10 });
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  const weight_field = (label: string, key: "dough_g" | "baked_g") => (
    <Figure<number | null>
      label={`${label} (${habits.weight})`}
      shown={value[key] === null ? "" : scale_figure(value[key] ?? 0, habits)}
      read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.weight(text, habits))}
      give={(g) => set({ [key]: g })}
    />
  );
  const measure = (label: string, key: "height_mm" | "width_mm" | "length_mm" | "spring") => (
    <Figure<number | null>
      label={label}
      shown={value[key] === null ? "" : plain(value[key] ?? 0, key === "spring" ? 2 : 0, habits)}
      read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.number(text))}
      give={(n) => set({ [key]: n })}
    />
  );
  return (
    <section class="sheet stack" aria-labelledby={`loaf-${loaf.id}`}>
      <h2 id={`loaf-${loaf.id}`}>Loaf {number}</h2>
      <Photos loaf={loaf} number={number} again={again} />
      <div class="pair">
        <WhenField label="Baked at" value={local_of(value.baked_at)} give={(text) => set({ baked_at: to_utc(moment_of(text) ?? now()) })} />
        {weight_field("Into the oven", "dough_g")}
        {weight_field("Out of the oven", "baked_g")}
      </div>
      <div class="pair loaf-size">
        {measure("Height (mm)", "height_mm")}
        {measure("Width (mm)", "width_mm")}
        {measure("Length (mm)", "length_mm")}
        {measure("Spring (times)", "spring")}
      </div>
      {value.dough_g !== null && value.baked_g !== null && value.dough_g > 0 && value.baked_g <= value.dough_g && (
        <p>
          Lost in the oven: <strong class="figure">{percent(1 - value.baked_g / value.dough_g, habits)}</strong> of its weight.
        </p>
      )}
      <div class="stack tight loaf-words">
        {(["crumb", "crust", "taste"] as const).map((key) => (
          <Field key={key} label={`The ${key}`}>
            {(attributes) => <textarea {...attributes} value={value[key]} onInput={(e) => set({ [key]: e.currentTarget.value })} />}
          </Field>
        ))}
      </div>
      <Fold title="Scores" fact={Object.entries(value.scores).map(([title, score]) => `${title} ${plain(score ?? 0, 0, habits)}`).join(", ") || "none yet"} open={new_score !== ""}>
        {scores.map(({ title, low, high, low_words, high_words }) => (
          <label key={title} class="score">
            <span>{title}</span>
            <input
              type="range"
              min={low}
              max={high}
              step={high - low > 2 ? 1 : (high - low) / 10}
              value={value.scores[title] ?? low}
              onInput={(e) => set({ scores: { ...value.scores, [title]: Number(e.currentTarget.value) } })}
            />
            <output class="figure">{value.scores[title] === undefined ? "–" : plain(value.scores[title] ?? 0, high - low > 2 ? 0 : 1, habits)}</output>
            {(low_words || high_words) && (
              <span class="quiet small scale-words">
                {plain(low, 0, habits)} {low_words} … {plain(high, 0, habits)} {high_words}
              </span>
            )}
          </label>
        ))}
        <div class="row">
          <div class="grow">
            <Field label="A score of your own, from 0 to 10" wrong={wrong || undefined}>
              {(attributes) => <input {...attributes} value={new_score} maxLength={40} onInput={(e) => scoring.set({ name: e.currentTarget.value })} />}
            </Field>
          </div>
          <button
            type="button"
            disabled={new_score.trim() === ""}
            onClick={() => void define_scale()}
          >
            Add it
          </button>
        </div>
      </Fold>
      <SaveRow
        changing={changing}
        also={
          <button type="button" onClick={() => throw_away("loaves", loaf.id, `Loaf ${number}`).then(again, (error: unknown) => set_wrong(words_of(error)))} aria-label={`Into the trash: loaf ${number}`}>
            Into the trash
          </button>
        }
      />
    </section>
  );
}

const local_of = (text: string) => {
  const at = from_utc(text);
  return at === undefined ? "" : iso(at);
};

function Photos({ loaf, number, again }: { loaf: LoafRecord; number: number; again: () => void }) {
  const held = useAnswer<PhotoRecordList>(`/api/photos?owner=${loaf.id}`, ["photo"]);
  const [said, set_said] = useState("");
  return (
    <div class="stack tight">
      <ul class="bare photos">
        {held.answer?.photos.map((photo, i) => (
          <li key={photo.id}>
            <a href={`/api/photos/${photo.id}/picture`} target="_blank" rel="noreferrer">
              <img src={`/api/photos/${photo.id}/picture`} alt={photo.caption || `Photo ${i + 1} of loaf ${number}`} loading="lazy" />
            </a>
            <button type="button" class="plain" aria-label={`Throw photo ${i + 1} of loaf ${number} away`} onClick={() => throw_away("photos", photo.id, `Photo ${i + 1} of loaf ${number}`).then(held.again, (error: unknown) => set_said(words_of(error)))}>
              ✕
            </button>
          </li>
        ))}
      </ul>
      <p role="status">{said}</p>
      <PhotoField
        loaf={loaf.id}
        sent={() => {
          held.again();
          again();
        }}
      />
    </div>
  );
}

/** Takes a photo: it is kept here until the daybook has it. */
function PhotoField({ loaf, sent }: { loaf: string; sent: () => void }) {
  const [said, set_said] = useState("");
  const waiting = photos_of(useWaiting(), loaf).length;
  const add = async (file: File | undefined) => {
    if (!file) return;
    set_said("Sending the photo…");
    try {
      const box = await outbox();
      const id = new_id();
      await box.add({ photo: { id, loaf, taken_at: to_utc(now()), picture: await smaller(file) } });
      const left = box.waiting.value.find((one) => id_of(one) === id);
      set_said(left ? (left.refused ?? "") : "The photo is in the daybook.");
      if (!left) sent();
    } catch (error) {
      set_said(words_of(error));
    }
  };
  return (
    <div class="stack tight">
      {waiting > 0 && <p class="quiet">{waiting === 1 ? "1 photo is" : `${waiting} photos are`} kept in this browser until the server is back.</p>}
      <Field label="A photo (JPEG or PNG)">
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
