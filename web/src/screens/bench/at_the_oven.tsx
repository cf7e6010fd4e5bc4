// At the oven, at the foot of the sheet: what it is set to, for how long, what comes out. Of a bake that says its oven.
import { core, how_long, how_to_load, in_minutes, percents } from "../../say/oven";
import { useHabits } from "../../say/say";
import { type Form, oven } from "../../state/bake";
import { useOven } from "../../state/oven";

export function AtTheOven({ form }: { form: Form }) {
  return Object.keys(oven(form)).length > 0 ? <Loading form={form} /> : null;
}

function Loading({ form }: { form: Form }) {
  const habits = useHabits();
  const { answer } = useOven(form);
  if (!answer) return null;
  return (
    <section class="stack tight" aria-labelledby="at-the-oven">
      <h2 id="at-the-oven">At the oven</h2>
      <dl class="between" data-testid="at-the-oven">
        {answer.with && (
          <>
            <dt>oven</dt>
            <dd>{answer.with}</dd>
          </>
        )}
        <dt>load</dt>
        <dd>{how_to_load(answer, habits)}</dd>
        <dt>bake</dt>
        <dd>
          <strong>{how_long(answer)}</strong>, core {core(answer, habits)}, {percents(answer.loss, habits)} lighter
        </dd>
        {answer.further_loads.flatMap(({ words }, i) => [<dt key={`load ${i}`}>load {i + 2}</dt>, <dd key={words}>{words}</dd>])}
        <dt>cool</dt>
        <dd>
          to cut {in_minutes(answer.cut_min)}, to bag {in_minutes(answer.bag_min)}
        </dd>
      </dl>
      {answer.vapour_in_short && <p class="note small">{answer.vapour_in_short}</p>}
    </section>
  );
}
