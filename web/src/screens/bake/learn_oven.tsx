// An oven of the house learned from this bake: the file of a probe in the core, how much lighter the loaf was, the oven's name.
import { useState } from "preact/hooks";
import { post, put, remove, words_of } from "../../api/ask";
import type { EquipmentRecord, OvenAnswer } from "../../api/types";
import { Field, Figure } from "../../parts/field";
import { Refused } from "../../parts/states";
import { plain, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { type Form, oven } from "../../state/bake";
import { useOwn } from "../../state/equipment";

export function LearnOven({ form }: { form: Form }) {
  const habits = useHabits();
  const ovens = useOwn("oven");
  const named = String(oven(form).name ?? (ovens.length === 1 ? (ovens[0]?.title ?? "") : ""));
  const [name, set_name] = useState<string | undefined>(undefined);
  const [probe, set_probe] = useState<string | undefined>(undefined);
  const [lighter, set_lighter] = useState<number | undefined>(undefined);
  const [said, set_said] = useState("");
  const [wrong, set_wrong] = useState("");
  const title = (name ?? named).trim();
  const learn = async (event: Event) => {
    event.preventDefault();
    set_said("");
    set_wrong("");
    const known = ovens.find((one) => one.title.toLowerCase() === title.toLowerCase());
    let fresh: EquipmentRecord | undefined;
    try {
      const own = known ?? (fresh = await post<EquipmentRecord>("/api/equipment", { title, what: "oven" }));
      const answer = await post<OvenAnswer>("/api/oven", {
        bake: form,
        named: own.title,
        ...(probe === undefined ? {} : { probe }),
        ...(lighter === undefined ? {} : { lighter_by: lighter }),
      });
      const { toml, measured } = answer.keep ?? own;
      await put<EquipmentRecord>(`/api/equipment/${own.id}`, { toml, measured, revision: own.revision });
      set_said(`${own.title} is learned: the core within ${plain(answer.learned?.core_off_K ?? 0, 1, habits)} K of the probe. Every bake in it uses that from now on.`);
    } catch (error) {
      set_wrong(words_of(error));
      // An oven that taught nothing is none.
      if (fresh) await remove(`/api/equipment/${fresh.id}`).catch(() => undefined);
    }
  };
  return (
    <details>
      <summary>Learn this oven from a bake that was measured</summary>
      <form class="stack" onSubmit={(e) => void learn(e)}>
        <p class="quiet small">A thermometer in the core, its file as minutes and celsius from the moment the loaf went in; and the loaf on the scale, dough and bread.</p>
        <div class="pair">
          <Field label="The oven's name">
            {(attributes) => <input {...attributes} required value={name ?? named} onInput={(e) => set_name(e.currentTarget.value)} />}
          </Field>
          <Field label="The probe's file (CSV)">
            {(attributes) => (
              <input
                {...attributes}
                type="file"
                accept=".csv,text/csv,text/plain"
                onChange={(e) => void e.currentTarget.files?.[0]?.text().then(set_probe, (error: unknown) => set_wrong(words_of(error)))}
              />
            )}
          </Field>
          <Figure<number | undefined>
            label="Lighter by (%)"
            hint="such as 13.5; empty: not weighed"
            shown={lighter === undefined ? "" : plain(100 * lighter, 1, habits)}
            read={(text) => {
              if (text.trim() === "") return { ok: true, value: undefined };
              const figure = typed.number(text.replace(/\s*%$/, ""));
              return figure.ok ? { ok: true, value: figure.value / 100 } : figure;
            }}
            give={set_lighter}
          />
        </div>
        <div>
          <button type="submit" class="main" disabled={title === "" || (probe === undefined && lighter === undefined)}>
            Learn and keep
          </button>
        </div>
        <p role="status">{said}</p>
        <Refused why={wrong} />
      </form>
    </details>
  );
}
