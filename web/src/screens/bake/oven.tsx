// The loaf in its oven: how long, what core, how much lighter, what colour, what stays of the alcohol and what its vapour
// can do. Asked once the part is opened, and again with every change of the recipe.
import type { OvenRange, Problem } from "../../api/types";
import { Choice, Field, Tick } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { Measure } from "../../parts/measure";
import { Failed, Waiting } from "../../parts/states";
import { core, how_long, in_minutes, percents } from "../../say/oven";
import { plain, useHabits, warmth, weight } from "../../say/say";
import { type Form, oven, set_oven } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { useOwn } from "../../state/equipment";
import { useOven } from "../../state/oven";
import { LearnOven } from "./learn_oven";
import { problem_at } from "./problem";

const forms = [["round", "round"], ["long", "long"], ["tin", "in a tin"], ["flat", "flat"]] as const;

const fields = [
  ["bake", "For (min)", "min", "40; empty: until the core is done"],
  ["steam", "Steam for (min)", "min", "10; empty: none"],
  ["lid", "Under a lid for (min)", "min", "20; empty: none"],
  ["cavity", "The oven holds (L)", "L", "60"],
] as const;

const counts = [["loaves", "Loaves at once", "2"], ["holds", "It takes", "4"]] as const;
const ticks = [["stone", "On a hot stone"], ["fan", "With a fan"]] as const;

/** What the oven is set to: one temperature, or several as the file has them. */
const shown = (value: unknown) => (Array.isArray(value) ? value.join(", ") : String(value ?? ""));
const written = (text: string) => {
  if (text.trim() === "") return undefined;
  return text.includes(",") ? text.split(",").map((one) => one.trim()) : text;
};

export function Oven({ draft, problem }: { draft: BakeDraft; problem: Problem | undefined }) {
  const { form, change } = draft;
  const now = oven(form);
  const give = (key: string, value: unknown) => change(set_oven(form, key, value));
  return (
    <Fold title="The oven" fact={shown(now.set) || "not said"} seldom open={problem_at(problem, "oven") !== undefined}>
      <div class="pair">
        <WhichOven name={now.name} give={(name) => give("name", name || undefined)} />
        <Choice label="Shape of the loaf" value={(now.form ?? "round") as "round"} options={forms as never} give={(v: string) => give("form", v)} />
        <Field label="Oven at" hint="such as 230 C" wrong={problem_at(problem, "oven", "set")}>
          {(attributes) => <input {...attributes} value={shown(now.set)} onInput={(e) => give("set", written(e.currentTarget.value))} />}
        </Field>
        {fields.map(([key, words, unit, such_as]) => (
          <Measure key={key} label={words} unit={unit} text={now[key]} such_as={such_as} give={(text) => give(key, text)} wrong={problem_at(problem, "oven", key)} />
        ))}
        {counts.map(([key, words, such_as]) => (
          <Field key={key} label={words} hint={`such as ${such_as}`} wrong={problem_at(problem, "oven", key)}>
            {(attributes) => (
              <input
                {...attributes}
                inputMode="numeric"
                value={shown(now[key])}
                onInput={(e) => give(key, /^\d+$/.test(e.currentTarget.value) ? Number(e.currentTarget.value) : undefined)}
              />
            )}
          </Field>
        ))}
      </div>
      {ticks.map(([key, words]) => (
        <Tick key={key} label={words} value={now[key] === true} give={(on) => give(key, on || undefined)} />
      ))}
      <OutOfTheOven form={form} />
      <LearnOven form={form} />
    </Fold>
  );
}

/** Which of the house's ovens it is; nothing where the house has none and the bake names none. */
function WhichOven({ name, give }: { name: unknown; give: (name: string) => void }) {
  const named = typeof name === "string" ? name : "";
  const ovens = useOwn("oven").map((one) => one.title);
  if (ovens.length === 0 && !named) return null;
  const other = ovens.length === 1 ? `the only one: ${ovens[0] ?? ""}` : "not said";
  return <Choice label="Which oven" value={named} options={[["", other] as const, ...[...new Set([...ovens, ...(named ? [named] : [])])].map((n) => [n, n] as const)]} give={give} />;
}

function OutOfTheOven({ form }: { form: Form }) {
  const habits = useHabits();
  const { answer, error } = useOven(form);
  if (!answer) return error ? <Failed error={error} /> : <Waiting what="Baking…" />;
  return (
    <section class={error ? "stack tight old" : "stack tight"} aria-labelledby="oven">
      <h3 id="oven">Out of the oven</h3>
      {error ? <Failed error={error} /> : null}
      {answer.with && <p class="quiet small">In {answer.with}.</p>}
      <dl class="between" data-testid="oven">
        <Fact name="In the oven">{how_long(answer)}</Fact>
        <Fact name="Core">
          {core(answer, habits)}
          {answer.bake_typed && `; ${warmth(96, habits)} after ${in_minutes(answer.done_min)}`}
        </Fact>
        <Fact name="Lighter by">{percents(answer.loss, habits)}</Fact>
        <Fact name="Crust">{colours(answer.colour_words)}</Fact>
        <Fact name="Spring">{percents(above(answer.rise), habits)}</Fact>
        <Fact name="The dough">{answer.dough_words}</Fact>
        {answer.further_loads.map(({ words }, i) => (
          <Fact key={words} name={`Load ${i + 2}`}>
            {words}
          </Fact>
        ))}
        <Fact name="Cut after">{in_minutes(answer.cut_min)}</Fact>
        <Fact name="Bag after">{in_minutes(answer.bag_min)}</Fact>
        {answer.alcohol_in_g > 0.5 && (
          <Fact name="Alcohol">
            of {weight(answer.alcohol_in_g, habits)} in a loaf {percents(answer.alcohol_kept, habits)} stay
          </Fact>
        )}
        <Fact name="Current">about {plain(answer.oven_kWh, 1, habits)} kWh</Fact>
      </dl>
      {answer.cautions.map((caution) => (
        <p key={caution} class="note small">
          {caution}
        </p>
      ))}
      {answer.assumed.length > 0 && <p class="quiet small">Assumed: {answer.assumed.join(", ")}.</p>}
      <p class="quiet small">In brackets: 4 of 5 loaves. Worked out, not measured: a probe and a scale show what your own oven does.</p>
    </section>
  );
}

function Fact({ name, children }: { name: string; children: preact.ComponentChildren }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  );
}

const above = (r: OvenRange): OvenRange => ({ p10: r.p10 - 1, p50: r.p50 - 1, p90: r.p90 - 1 });
const colours = (c: { p10: string; p50: string; p90: string }) => (c.p10 === c.p90 ? c.p50 : `${c.p50} (${c.p10} to ${c.p90})`);
