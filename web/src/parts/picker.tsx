// Picking an ingredient by a part of its name: own bottles first, then the larder.
import { useState } from "preact/hooks";
import type { BottleRecord, LarderListAnswer } from "../api/types";
import { label_of, own_name } from "../state/bottle";
import { Field } from "./field";

export interface Choosable {
  name: string;
  also: readonly string[];
  group: string;
  note: string;
  own?: { name: string; like: string; label: Record<string, unknown> };
}

export function choices(larder: LarderListAnswer["ingredients"], bottles: readonly BottleRecord[]): Choosable[] {
  const group_of = new Map(larder.map((i) => [i.name, i.group]));
  return [
    ...bottles.map((b) => ({
      name: own_name(b),
      also: [b.ingredient],
      group: group_of.get(b.ingredient) ?? "drink",
      note: "own bottle",
      own: { name: own_name(b), like: b.ingredient, label: label_of(b) },
    })),
    ...larder.map(({ name, also, group, note }) => ({ name, also, group, note })),
  ];
}

/** Those whose name, other names or group hold all the words; a name that begins so comes first. */
export function matching(all: readonly Choosable[], words: string): Choosable[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  const text = (c: Choosable) => [c.name, ...c.also, c.group].join(" ").toLowerCase();
  const first = wanted[0] ?? "";
  return all
    .filter((c) => wanted.every((w) => text(c).includes(w)))
    .map((c, i) => ({ c, i, rank: c.own ? 0 : first && c.name.toLowerCase().startsWith(first) ? 1 : 2 }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i)
    .map(({ c }) => c);
}

export function Picker(props: { choices: readonly Choosable[]; pick: (choice: Choosable) => void }) {
  const [words, set_words] = useState("");
  const found = matching(props.choices, words);
  return (
    <div class="stack tight">
      <Field label="A name, or a group such as drink">
        {(attributes) => (
          <input
            {...attributes}
            type="search"
            autofocus
            autocomplete="off"
            value={words}
            onInput={(e) => set_words(e.currentTarget.value)}
            onKeyDown={(e) => {
              if (e.key === "Enter" && found[0]) {
                e.preventDefault();
                props.pick(found[0]);
              }
            }}
          />
        )}
      </Field>
      <ul class="bare picker">
        {found.slice(0, 60).map((choice) => (
          <li key={`${choice.own ? "own " : ""}${choice.name}`}>
            <button type="button" onClick={() => props.pick(choice)}>
              <span>{choice.name}</span>
              <span class="quiet small">{choice.own ? `own bottle, ${choice.own.like}` : choice.group}</span>
            </button>
          </li>
        ))}
      </ul>
      {found.length === 0 && <p class="quiet">The larder has nothing of that name.</p>}
    </div>
  );
}
