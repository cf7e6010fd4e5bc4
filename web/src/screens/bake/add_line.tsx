// Add an ingredient: found by typing a part of its name.
import { useState } from "preact/hooks";
import type { BottleRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Picker, choices } from "../../parts/picker";
import { Sheet } from "../../parts/sheet";
import { type Form, add_line, lines, with_own_bottle } from "../../state/bake";
import type { Ingredients } from "../../state/drinks";

export function AddLine(props: { form: Form; larder: Ingredients; add: (form: Form, name: string) => void }) {
  const [open, set_open] = useState(false);
  const bottles = useAnswer<BottleRecordList>("/api/bottles", ["bottle"]).answer?.bottles ?? [];
  const there = new Set(lines(props.form).map((l) => l.name));
  return (
    <>
      <div>
        <button type="button" onClick={() => set_open(true)}>
          + Add an ingredient
        </button>
      </div>
      {open && (
        <Sheet title="Into the bowl" close={() => set_open(false)}>
          <Picker
            choices={choices(props.larder, bottles).filter((c) => !there.has(c.name))}
            pick={(choice) => {
              set_open(false);
              const group = choice.group;
              const amount = group === "flour" ? "10 %" : group === "salt" ? "2 %" : group === "drink" ? "20 %" : "5 %";
              const before = group === "drink" || group === "flour" ? "water" : undefined;
              const form = choice.own ? with_own_bottle(props.form, choice.own) : props.form;
              props.add(add_line(form, choice.name, amount, before), choice.name);
            }}
          />
        </Sheet>
      )}
    </>
  );
}
