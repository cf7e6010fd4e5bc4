// What is done to the drink before it goes in: let go flat, something steeped in it, simmered down, thinned. Each changes the recipe, and so the answer above.
import { words_of } from "../../api/ask";
import type { BowlAnswer, LarderListAnswer, SimmerAnswer } from "../../api/types";
import { Choice, Figure, Tick } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { made_from } from "../../say/prepare";
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

type Larder = LarderListAnswer["ingredients"];

/** What bakers steep in a drink. */
const steeped_groups = ["fruit", "seed", "sugar", "malt", "other"];
const usual_dose = "5 %";

export function BeforeItGoesIn({ draft, drink, larder, prepared_as }: { draft: BakeDraft; drink: string; larder: Larder; prepared_as: (line: string) => void }) {
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
        <Choice
          label="Steep in it, then strain it off"
          value={how.steep}
          options={[["", "nothing"] as const, ...steepable(larder, how.steep).map((name) => [name, name] as const)]}
          give={(steep: string) => set({ steep, dose: steep === "" ? "" : how.dose || usual_dose })}
        />
        {how.steep !== "" && (
          <Percent label="So much of it (% of the drink)" hint="such as 5" most={50} value={percent_in(how.dose)} give={(dose) => set({ dose: dose === null ? usual_dose : percent(dose, "%") })} />
        )}
        <Percent label="Simmer to (% of its weight)" hint="such as 60; empty: not simmered" most={100} value={percent_in(how.simmer_to)} give={(to) => set({ simmer_to: percent(to, "%") })} />
        <Percent label="Thin to (% vol)" hint="with water, such as 6; empty: not thinned" most={96} value={percent_in(how.thin_to)} give={(to) => set({ thin_to: percent(to, "% vol") })} />
      </div>
      {prepared(how) && <MadeFrom form={draft.form} drink={drink} simmer_to={how.simmer_to} />}
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

const steepable = (larder: Larder, chosen: string): string[] => {
  const names = larder.filter((i) => steeped_groups.includes(i.group)).map((i) => i.name);
  return chosen === "" || names.includes(chosen) ? names : [chosen, ...names];
};

const done = ({ flat, steep, dose, simmer_to, thin_to }: Preparing) =>
  [flat ? "let go flat" : "", steep && `${dose} ${steep} steeped in it`, simmer_to && `simmered to ${simmer_to}`, thin_to && `thinned to ${thin_to}`].filter(Boolean).join(", ");

const prepared = (how: Preparing) => how.flat || how.steep !== "" || how.simmer_to !== "" || how.thin_to !== "";

/** What it takes for this bake, and what happens in the pan. */
function MadeFrom({ form, drink, simmer_to }: { form: Form; drink: string; simmer_to: string }) {
  const habits = useHabits();
  const { bowl } = useAsked<BowlAnswer>("/api/bowl", { bake: form }).answer ?? {};
  const one = bowl?.to_prepare.find((made) => made.ingredient === drink);
  if (!one) return null;
  const thinned_g = one.from.slice(1).find(({ ingredient }) => ingredient === "water")?.mass_g ?? 0;
  return (
    <>
      <p class="note" data-testid="made-from">
        For {weight(one.mass_g, habits)}: {made_from(one, habits)}.
      </p>
      {simmer_to && <Pan drink={made_of(form, drink)} left_g={one.mass_g - thinned_g} to={simmer_to} />}
    </>
  );
}

/** What goes into the pan for this bake, how long it takes, and what can happen. */
function Pan({ drink, left_g, to }: { drink: string; left_g: number; to: string }) {
  const habits = useHabits();
  const share = percent_in(to);
  const in_g = share === null ? undefined : (100 * left_g) / share;
  const { answer, error } = useAsked<SimmerAnswer>("/api/simmer", in_g === undefined ? undefined : { drink, to, in_g });
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
