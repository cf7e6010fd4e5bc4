// An oven of the house learned from this bake: the file of a probe in the core, how much lighter the loaf was, the oven's name.
import { useState } from "preact/hooks";
import type { OvenAnswer } from "../../api/types";
import { Figure } from "../../parts/field";
import { Learn, ProbeFile } from "../../parts/learn";
import { how_near } from "../../say/oven";
import { plain, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { type Form, oven } from "../../state/bake";
import { the_only, useOwn } from "../../state/equipment";

export function LearnOven({ form }: { form: Form }) {
  const habits = useHabits();
  const ovens = useOwn("oven");
  const [probe, set_probe] = useState<string | undefined>(undefined);
  const [lighter, set_lighter] = useState<number | undefined>(undefined);
  return (
    <Learn<OvenAnswer>
      what="oven"
      title="Learn this oven from a bake that was measured"
      how="A thermometer in the core, its file as minutes and celsius from the moment the loaf went in; and the loaf on the scale, dough and bread."
      named={String(oven(form).name ?? the_only(ovens))}
      path="/api/oven"
      asked={{ bake: form, ...(probe === undefined ? {} : { probe }), ...(lighter === undefined ? {} : { lighter_by: lighter }) }}
      complete={probe !== undefined || lighter !== undefined}
      said={({ learned }) => `${how_near(learned, habits)}. Every bake in it uses that from now on.`}
    >
      <ProbeFile give={set_probe} />
      <Figure<number | undefined>
        label="Lighter by (%)"
        hint="such as 13.5; empty: not weighed"
        shown={lighter === undefined ? "" : plain(100 * lighter, 1, habits)}
        read={typed.or_empty((text) => {
          const figure = typed.percent(text);
          return figure.ok ? { ok: true, value: figure.value / 100 } : figure;
        })}
        give={set_lighter}
      />
    </Learn>
  );
}
