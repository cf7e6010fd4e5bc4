// The drink before it goes in: let go flat, simmered down, thinned. What is made of it stands in the bowl in its place, with its own
// alcohol, sugar and acid, and costs what went into it.
import { words_of } from "../../api/ask";
import type { Bowl, SimmerAnswer } from "../../api/types";
import { Figure, Tick } from "../../parts/field";
import { plain, scale_figure, useHabits, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { useAsked } from "../../state/asked";
import { type Table, prepare, prepared } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";

const nothing_or_percent = (text: string) => (text.trim() === "" ? ({ ok: true, value: null } as const) : typed.percent(text.replace(/\s*vol\s*$/i, "")));

const figure_of = (value: unknown): number | null => (typeof value === "string" ? Number.parseFloat(value) : null);

export function Prepare({ draft, drink, bowl }: { draft: BakeDraft; drink: string; bowl: Bowl | undefined }) {
  const habits = useHabits();
  const { form, change } = draft;
  const { of, ...how } = prepared(form, drink);
  const give = (key: string, value: unknown) => {
    const { [key]: _, ...rest } = how as Table;
    change(prepare(form, drink, value === undefined ? rest : { ...rest, [key]: value }));
  };
  const shown = (figure: number | null, digits: number) => (figure === null ? "" : plain(figure, digits, habits));
  const [simmer_to, thin_to] = [figure_of(how.simmer_to), figure_of(how.thin_to)];
  return (
    <details open={Object.keys(how).length > 0}>
      <summary>Prepare it first</summary>
      <div class="stack tight">
        <Tick label="Let go flat" value={how.flat === true} give={(flat) => give("flat", flat || undefined)} />
        <div class="pair">
          <Figure<number | null>
            label="Simmered to (% of its weight)"
            shown={shown(simmer_to, 0)}
            read={nothing_or_percent}
            give={(percent) => give("simmer_to", percent === null ? undefined : `${percent} %`)}
            hint="such as 60; empty: not"
          />
          <Figure<number | null>
            label="Thinned to (% vol)"
            shown={shown(thin_to, 1)}
            read={nothing_or_percent}
            give={(percent) => give("thin_to", percent === null ? undefined : `${percent} % vol`)}
            hint="such as 2; empty: not"
          />
        </div>
        {simmer_to !== null && <InThePan drink={String(of ?? drink)} to={`${simmer_to} %`} share={simmer_to / 100} left_g={bowl?.lines.find((line) => line.ingredient === drink)?.plan_g} />}
      </div>
    </details>
  );
}

/** How much goes into the pan for what the bowl wants, and for how long; what the flame can do. */
function InThePan({ drink, to, share, left_g }: { drink: string; to: string; share: number; left_g: number | undefined }) {
  const habits = useHabits();
  const in_g = left_g === undefined ? 1000 : left_g / share;
  const { answer, error } = useAsked<SimmerAnswer>("/api/simmer", { drink, to, in_g });
  if (error) return <p class="wrong">{words_of(error)}</p>;
  if (!answer) return null;
  return (
    <>
      <p role="status" data-testid="in-the-pan">
        <strong class="figure">
          {scale_figure(in_g, habits)} {habits.weight}
        </strong>{" "}
        of {answer.drink} into the pan; about {Math.round(answer.minutes)} min at the boil leave {weight(answer.left_g, habits)} with {plain(answer.strength_after_percent_vol, 1, habits)} % vol.
      </p>
      {answer.cautions.map((caution) => (
        <p key={caution} class="note small">
          {caution}
        </p>
      ))}
    </>
  );
}
