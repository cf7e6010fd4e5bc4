// What to weigh, and where each jar stands.
import type { PlanAnswer } from "../../api/test_bakes";
import { Failed, Waiting } from "../../parts/states";
import { Wide } from "../../parts/wide";
import { day_words } from "../../say/clock";
import { useHabits, weight } from "../../say/say";
import { useAsked } from "../../state/asked";

export function Plan({ what }: { what: object }) {
  const habits = useHabits();
  const held = useAsked<PlanAnswer>("/api/testbake-plan", what);
  if (!held.answer) return held.error ? <Failed error={held.error} /> : <Waiting what="Weighing…" />;
  const plan = held.answer;
  return (
    <div class="stack">
      {held.error ? <Failed error={held.error} /> : null}
      {plan.doughs.map((dough) => (
        <section key={dough.name} class="sheet stack tight" aria-label={dough.name}>
          <h2>{dough.name}</h2>
          <table>
            <tbody>
              {dough.lines.map((line) => (
                <tr key={line.ingredient}>
                  <th scope="row">{line.ingredient}</th>
                  <td class="number">{weight(line.mass_g, habits)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {dough.differs_from_plain.length > 0 && <p>Against plain water: {dough.differs_from_plain.map((d) => d.words).join("; ")}.</p>}
          {dough.notes.map((note) => (
            <p key={note} class="note small">
              {note}
            </p>
          ))}
        </section>
      ))}
      <section class="stack tight" aria-labelledby="places">
        <h2 id="places">Where each jar stands</h2>
        <p class="quiet">Drawn by lot. Whoever reads the jars sees the labels alone.</p>
        <Places plan={plan} />
        <div class="row">
          <button type="button" onClick={() => print()}>
            Print the plan
          </button>
        </div>
        <details class="no-print">
          <summary>Which label is which: for whoever fills the jars</summary>
          <Places plan={plan} key_too />
        </details>
      </section>
      {plan.cautions.map((caution) => (
        <p key={caution} class="note">
          {caution}
        </p>
      ))}
    </div>
  );
}

function Places({ plan, key_too }: { plan: PlanAnswer; key_too?: boolean }) {
  const habits = useHabits();
  return (
    <Wide name={key_too ? "Which label is which" : "Places of the jars"}>
      <table>
        <thead>
          <tr>
            <th scope="col">day</th>
            <th scope="col" class="number">
              place
            </th>
            <th scope="col">label</th>
            {key_too && <th scope="col">dough</th>}
          </tr>
        </thead>
        <tbody>
          {plan.jars_placed.map((jar) => (
            <tr key={`${jar.day}${jar.label}`}>
              <td>{day_words(jar.day, habits)}</td>
              <td class="number">{jar.place}</td>
              <td class="figure">{jar.label}</td>
              {key_too && (
                <td>
                  {jar.dough}
                  {plan.jars > 1 && `, jar ${jar.repeat}`}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
