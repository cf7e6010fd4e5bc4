// Heights of the jars, one dough of one day at a time. What is written down goes to the daybook at once, or waits in this browser
// until the server is back.
import { useState } from "preact/hooks";
import { words_of } from "../../api/ask";
import type { JarLook, TestDocument } from "../../api/tests";
import { Choice, Figure } from "../../parts/field";
import { plain, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { useTyping } from "../../state/drafts";
import { new_id, outbox } from "../../state/outbox";
import { can_undo } from "../../state/undo";

export function Readings({ test, doc }: { test: string; doc: TestDocument }) {
  const habits = useHabits();
  const typing = useTyping(`look.${test}`, { day: doc.days[0] ?? "", dough: doc.doughs[0]?.name ?? "", jar: "1", hours: 0, height: doc.jar_mm });
  const { day, dough, jar, hours, height } = typing.value;
  const [said, set_said] = useState("");
  const here = doc.looks
    .filter((l) => l.day === day && l.dough === dough && l.repeat === Number(jar))
    .sort((a, b) => a.hours - b.hours);
  const said_h = (h: number) => plain(h, Number.isInteger(h) ? 0 : 2, habits);
  const figures = (l: JarLook) => `${plain(l.height_mm, 0, habits)} mm at ${said_h(l.hours)} h`;
  const send = async (look: JarLook, taken_out: boolean) => (await outbox()).add({ jar: { id: new_id(), test, look, taken_out } });
  const write = async (event: Event) => {
    event.preventDefault();
    const look = { day, dough, repeat: Number(jar), hours, height_mm: height };
    const before = here.find((l) => l.hours === hours);
    try {
      await send(look, false);
      set_said(`Written down: ${figures(look)}.`);
      if (before && before.height_mm !== height) can_undo(`${figures(look)} stands in place of ${plain(before.height_mm, 0, habits)} mm.`, () => send(before, false));
    } catch (error) {
      set_said(words_of(error));
    }
  };
  const take_out = async (look: JarLook) => {
    try {
      await send(look, true);
      set_said("");
      can_undo(`${figures(look)} is taken out.`, () => send(look, false));
    } catch (error) {
      set_said(words_of(error));
    }
  };
  return (
    <div class="stack">
      <form class="stack" onSubmit={(event) => void write(event)}>
        <div class="pair">
          <Choice label="Day" value={day} options={doc.days.map((d) => [d, d] as const)} give={(d) => typing.set({ day: d })} />
          <Choice label="Dough" value={dough} options={doc.doughs.map((d) => [d.name, d.name] as const)} give={(d) => typing.set({ dough: d })} />
          {doc.jars > 1 && (
            <Choice label="Jar" value={jar} options={Array.from({ length: doc.jars }, (_, i) => [String(i + 1), String(i + 1)] as const)} give={(j) => typing.set({ jar: j })} />
          )}
          <Figure label="Hours since mixing" shown={said_h(hours)} read={typed.number} give={(h) => typing.set({ hours: h })} />
          <Figure label="Height (mm)" shown={plain(height, 0, habits)} read={typed.number} give={(mm) => typing.set({ height: mm })} />
        </div>
        <div>
          <button type="submit" class="main">
            Write it down
          </button>
        </div>
        <p role="status">{said}</p>
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
                  <td>{said_h(look.hours)}</td>
                  <td class="number">{plain(look.height_mm, 0, habits)}</td>
                  <td>
                    <button type="button" class="square" aria-label={`Take out ${look.height_mm} mm at ${look.hours} h`} onClick={() => void take_out(look)}>
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
