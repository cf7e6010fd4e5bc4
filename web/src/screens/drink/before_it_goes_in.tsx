// What is done to the drink before it goes in: let go flat, simmered down, thinned. Each changes the recipe, and so the answer above.
import { words_of } from "../../api/ask";
import type { BowlAnswer, SimmerAnswer } from "../../api/types";
import { Figure, Tick } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { plain, useHabits, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { useAsked } from "../../state/asked";
import { type Form, lines } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { type Preparing, as_bought, made_of, prepare, preparing } from "../../state/prepared";

const percent_in = (text: string): number | null => {
  const figure = /^([\d.]+) ?%/.exec(text)?.[1];
  return figure === undefined ? null : Number(figure);
};

function Percent(props: { label: string; hint: string; value: number | null; most: number; give: (value: number | null) => void }) {
  const { label, hint, value, most, give } = props;
  const habits = useHabits();
  return (
    <Figure<number | null>
      label={label}
      shown={value === null ? "" : plain(value, Number.isInteger(value) ? 0 : 1, habits)}
      read={(text) => {
        if (text.trim() === "") return { ok: true, value: null };
        const read = typed.percent(text.replace(/\s*vol\s*$/i, ""));
        return read.ok && !(read.value > 0 && read.value < most) ? { ok: false, why: `Above 0 and under ${most}.` } : read;
      }}
      give={give}
      hint={hint}
    />
  );
}

export function BeforeItGoesIn({ draft, drink, prepared_as }: { draft: BakeDraft; drink: string; prepared_as: (line: string) => void }) {
  const how = preparing(draft.form, drink);
  const set = (what: Partial<Preparing>) => {
    const at = lines(draft.form).findIndex((line) => line.name === drink);
    const form = prepare(draft.form, drink, { ...how, ...what });
    draft.change(form);
    prepared_as(lines(form)[at]?.name ?? drink);
  };
  const percent = (value: number | null, unit: string) => (value === null ? "" : `${value} ${unit}`);
  return (
    <Fold title="Before it goes in" fact={prepared(how) ? done(how) : "as it comes from the bottle"} open={prepared(how)}>
      <Tick label="Let it go flat" value={how.flat} give={(flat) => set({ flat })} />
      <div class="pair">
        <Percent label="Simmer to (% of its weight)" hint="such as 60; empty: not simmered" most={100} value={percent_in(how.simmer_to)} give={(to) => set({ simmer_to: percent(to, "%") })} />
        <Percent label="Thin to (% vol)" hint="with water, such as 6; empty: not thinned" most={96} value={percent_in(how.thin_to)} give={(to) => set({ thin_to: percent(to, "% vol") })} />
      </div>
      {how.simmer_to && <Pan form={draft.form} drink={drink} to={how.simmer_to} />}
      {prepared(how) && (
        <div>
          <button type="button" class="plain" onClick={() => set(as_bought)}>
            As it comes from the bottle
          </button>
        </div>
      )}
    </Fold>
  );
}

const done = ({ flat, simmer_to, thin_to }: Preparing) =>
  [flat ? "let go flat" : "", simmer_to && `simmered to ${simmer_to}`, thin_to && `thinned to ${thin_to}`].filter(Boolean).join(", ");

const prepared = (how: Preparing) => how.flat || how.simmer_to !== "" || how.thin_to !== "";

/** What goes into the pan for this bake, how long it takes, and what can happen. */
function Pan({ form, drink, to }: { form: Form; drink: string; to: string }) {
  const habits = useHabits();
  const { bowl } = useAsked<BowlAnswer>("/api/bowl", { bake: form }).answer ?? {};
  const at = lines(form).findIndex((line) => line.name === drink);
  const left_g = bowl?.lines[at]?.plan_g;
  const share = percent_in(to);
  const in_g = left_g === undefined || share === null ? undefined : (100 * left_g) / share;
  const { answer, error } = useAsked<SimmerAnswer>("/api/simmer", in_g === undefined ? undefined : { drink: made_of(form, drink), to, in_g });
  if (error) return <p class="quiet small">{words_of(error)}</p>;
  if (!answer || in_g === undefined) return null;
  return (
    <div class="note stack tight" role="status">
      <p>
        <strong class="figure">{weight(in_g, habits)}</strong> into the pan, about <strong class="figure">{plain(5 * Math.ceil(answer.minutes / 5), 0, habits)} min</strong>{" "}
        at a simmer, until <strong class="figure">{weight(answer.left_g, habits)}</strong> are left. Let it cool before it meets the levain.
      </p>
      {answer.cautions.map((words) => (
        <p class="small" key={words}>
          {words}
        </p>
      ))}
    </div>
  );
}
