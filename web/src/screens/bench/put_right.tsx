// Something was weighed otherwise: first what needs nothing but pouring less, then what to add, and that it was added.
import type { Bowl, MendAnswer } from "../../api/types";
import type { Habits } from "../../say/habits";
import { percent, weight } from "../../say/say";

export function PutRight(props: {
  mend: MendAnswer["mend"];
  lines: Bowl["lines"];
  is_in: (line: string) => boolean;
  habits: Habits;
  pour: (g: Readonly<Record<string, number>>) => void;
}) {
  const { mend, lines, is_in, habits, pour } = props;
  const { pour_less: less, add, extra_dough_g: extra } = mend;
  const dough_g = lines.reduce((sum, line) => sum + line.plan_g, 0);
  const actual = (ingredient: string) => lines.find((l) => l.ingredient === ingredient)?.actual_g ?? 0;
  const in_all = Object.fromEntries(add.map((a) => [a.ingredient, actual(a.ingredient) + a.mass_g]));
  return (
    <section class="note stack tight" aria-labelledby="mend" data-testid="mend">
      <h2 id="mend">{add.length > 0 ? "Put it right" : "It is right"}</h2>
      {add.length === 0 && <p>All is in proportion{extra >= 1 && `; there is ${weight(extra, habits)} more dough`}.</p>}
      {less && (
        <>
          <p>
            <span class="figure mend-figure">Pour {weight(less.mass_g, habits)} less {less.ingredient}</span>: {weight(less.leaves_g, habits)} of it. The dough then
            holds the water it should; a little more of what was poured stays in it.
          </p>
          <div>
            <button type="button" onClick={() => pour({ [less.ingredient]: less.leaves_g })}>
              I poured {weight(less.leaves_g, habits)} {less.ingredient}
            </button>
          </div>
        </>
      )}
      {!mend.possible && <p>It cannot be had quite as planned; this comes nearest.</p>}
      {add.length > 0 && (
        <>
          {less && <h3>Or, to have it exactly as planned</h3>}
          <ul class="bare">
            {add.map((a) => (
              <li key={a.ingredient}>
                {is_in(a.ingredient) ? (
                  <>
                    Add <span class="figure mend-figure">{weight(a.mass_g, habits)}</span> {a.ingredient}
                  </>
                ) : (
                  <>
                    Weigh <span class="figure mend-figure">{weight(in_all[a.ingredient] ?? 0, habits)}</span> {a.ingredient} in all
                  </>
                )}
              </li>
            ))}
          </ul>
          {extra >= 1 && (
            <p>
              That makes {weight(extra, habits)} ({percent(extra / dough_g, habits)}) more dough.
            </p>
          )}
          <div>
            <button type="button" onClick={() => pour(in_all)}>
              I added this
            </button>
          </div>
        </>
      )}
    </section>
  );
}
