// One of the house's own learned from what was measured: its name, what is asked, and the record kept with what that taught.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { post, put, words_of } from "../api/ask";
import type { EquipmentRecord } from "../api/types";
import { type Kind, useOwn } from "../state/equipment";
import { Field } from "./field";
import { Refused } from "./states";

/** Such an answer says what the record is to be, and leaves its keeping to who asked. */
interface Taught {
  keep: EquipmentRecord | null;
  /** What is to be known of the file: gaps, that it fits badly. */
  notes?: readonly string[];
}

export function Learn<Answer extends Taught>(props: {
  what: Kind;
  title: string;
  /** What is measured, and from when on. */
  how: string;
  /** What it is called until another name is typed. */
  named: string;
  path: string;
  asked: object;
  /** Enough was measured to ask. */
  complete: boolean;
  /** "core within 1 K of the probe. Every bake …", behind "Deck oven is learned: ". */
  said: (answer: Answer) => string;
  children: ComponentChildren;
}) {
  const { what, named, asked } = props;
  const all = useOwn(what);
  const [name, set_name] = useState<string | undefined>(undefined);
  const [said, set_said] = useState<readonly string[]>([]);
  const [wrong, set_wrong] = useState("");
  const title = (name ?? named).trim();
  const learn = async (event: Event) => {
    event.preventDefault();
    set_said([]);
    set_wrong("");
    const known = all.find((one) => one.title.toLowerCase() === title.toLowerCase());
    try {
      const answer = await post<Answer>(props.path, { ...asked, named: title, keep: true });
      const { toml, measured } = answer.keep ?? { toml: "", measured: "" };
      if (known) await put<EquipmentRecord>(`/api/equipment/${known.id}`, { toml, measured, revision: known.revision });
      else await post<EquipmentRecord>("/api/equipment", { title, what, toml, measured });
      set_said([`${known?.title ?? title} is learned: ${props.said(answer)}`, ...(answer.notes ?? [])]);
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <details>
      <summary>{props.title}</summary>
      <form class="stack" onSubmit={(e) => void learn(e)}>
        <p class="quiet small">{props.how}</p>
        <Field label={`The ${what}'s name`}>
          {(attributes) => <input {...attributes} required value={name ?? named} onInput={(e) => set_name(e.currentTarget.value)} />}
        </Field>
        <div class="pair">{props.children}</div>
        <div>
          <button type="submit" class="main" disabled={title === "" || !props.complete}>
            Learn and keep
          </button>
        </div>
        <div role="status" class="stack tight">
          {said.map((one) => (
            <p key={one}>{one}</p>
          ))}
        </div>
        <Refused why={wrong} />
      </form>
    </details>
  );
}

/** The text of a probe's file; where it cannot be read, why. */
export function ProbeFile({ give }: { give: (text: string | undefined) => void }) {
  const [wrong, set_wrong] = useState("");
  const picked = async (file: File | undefined) => {
    set_wrong("");
    give(undefined);
    try {
      if (file) give(await file.text());
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <Field label="The probe's file (CSV)" wrong={wrong}>
      {(attributes) => <input {...attributes} type="file" accept=".csv,text/csv,text/plain" onChange={(e) => void picked(e.currentTarget.files?.[0])} />}
    </Field>
  );
}
