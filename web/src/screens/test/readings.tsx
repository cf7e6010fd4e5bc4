// Heights of the jars, one dough of one day at a time.
import { useState } from "preact/hooks";
import type { TestDocument } from "../../api/tests";
import { Choice, Figure } from "../../parts/field";
import { plain, useHabits } from "../../say/say";
import * as typed from "../../say/typed";

export function Readings({ doc, change }: { doc: TestDocument; change: (what: Partial<TestDocument>) => void }) {
  const habits = useHabits();
  const [day, set_day] = useState(doc.days[0] ?? "");
  const [dough, set_dough] = useState(doc.doughs[0]?.name ?? "");
  const [jar, set_jar] = useState("1");
  const [hours, set_hours] = useState(0);
  const [height, set_height] = useState(doc.jar_mm);
  const here = doc.looks
    .filter((l) => l.day === day && l.dough === dough && l.repeat === Number(jar))
    .sort((a, b) => a.hours - b.hours);
  const write = (event: Event) => {
    event.preventDefault();
    const look = { day, dough, repeat: Number(jar), hours, height_mm: height };
    const same = (l: typeof look) => l.day === day && l.dough === dough && l.repeat === look.repeat && l.hours === hours;
    change({ looks: [...doc.looks.filter((l) => !same(l)), look] });
  };
  return (
    <div class="stack">
      <form class="stack" onSubmit={write}>
        <div class="pair">
          <Choice label="Day" value={day} options={doc.days.map((d) => [d, d] as const)} give={set_day} />
          <Choice label="Dough" value={dough} options={doc.doughs.map((d) => [d.name, d.name] as const)} give={set_dough} />
          {doc.jars > 1 && <Choice label="Jar" value={jar} options={Array.from({ length: doc.jars }, (_, i) => [String(i + 1), String(i + 1)] as const)} give={set_jar} />}
          <Figure label="Hours since mixing" shown={plain(hours, 2, habits)} read={typed.number} give={set_hours} />
          <Figure label="Height (mm)" shown={plain(height, 0, habits)} read={typed.number} give={set_height} />
        </div>
        <div>
          <button type="submit" class="main">
            Write it down
          </button>
        </div>
      </form>
      <section class="stack tight" aria-labelledby="seen">
        <h2 id="seen">Seen so far</h2>
        {here.length === 0 ? (
          <p class="quiet">Nothing of this jar yet; {doc.looks.length} heights in all.</p>
        ) : (
          <table>
            <thead>
              <tr>
                <th scope="col">hours</th>
                <th scope="col" class="number">
                  mm
                </th>
                <th scope="col">
                  <span class="unseen">take out</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {here.map((look) => (
                <tr key={look.hours}>
                  <td>{plain(look.hours, 2, habits)}</td>
                  <td class="number">{plain(look.height_mm, 0, habits)}</td>
                  <td>
                    <button
                      type="button"
                      class="square"
                      aria-label={`Take out ${look.height_mm} mm at ${look.hours} h`}
                      onClick={() => change({ looks: doc.looks.filter((l) => l !== look) })}
                    >
                      ✕
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </section>
    </div>
  );
}
