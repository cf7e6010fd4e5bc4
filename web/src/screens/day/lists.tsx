// What follows from the plan: what to feed, to weigh and to buy.
import type { DayAnswer } from "../../api/types";
import { Fold } from "../../parts/fold";
import { exact_moment, from_utc } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { useHabits, volume, weight } from "../../say/say";

type Line = DayAnswer["lists"]["needs"][number];

const amount = (line: Line, habits: Habits) => (line.volume_mL === null ? weight(line.mass_g, habits) : volume(line.volume_mL, habits));
const when = (text: string, habits: Habits) => exact_moment(from_utc(text) ?? (0 as never), habits);

export function Lists({ answer }: { answer: DayAnswer }) {
  const habits = useHabits();
  const { feed, weigh, needs, buy } = answer.lists;
  return (
    <>
      {feed.length > 0 && (
        <Fold title="To feed" fact={`${when(feed[0]?.at ?? "", habits)} ${feed[0]?.bake}`}>
          <ul>
            {feed.map((one) => (
              <li key={one.bake}>
                <span class="figure">{when(one.at, habits)}</span> <strong>{one.bake}</strong>: {one.words}
              </li>
            ))}
          </ul>
        </Fold>
      )}
      {weigh.length > 0 && (
        <Fold title="To weigh, in the order of mixing" fact={`${weigh[0]?.bake} first`}>
          <div class="day-weigh">
            {weigh.map((one) => (
              <div key={one.bake} class="stack tight">
                <p>
                  <span class="figure">{when(one.at, habits)}</span> <strong>{one.bake}</strong>, {one.loaves} {one.loaves === 1 ? "loaf" : "loaves"}
                </p>
                <Amounts lines={one.lines} />
              </div>
            ))}
          </div>
        </Fold>
      )}
      {needs.length > 0 && (
        <Fold title="Ingredients in all" fact={`${needs.length} things`}>
          <p class="quiet">Water and ripe starter left out.</p>
          <Amounts lines={needs} />
        </Fold>
      )}
      {buy !== null && (
        <Fold title="To buy" fact={buy[0] ?? "nothing is short"}>
          {buy.length === 0 ? (
            <p class="quiet">Nothing is short.</p>
          ) : (
            <ul>
              {buy.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          )}
        </Fold>
      )}
    </>
  );
}

function Amounts({ lines }: { lines: readonly Line[] }) {
  const habits = useHabits();
  return (
    <table class="day-amounts">
      <thead class="unseen">
        <tr>
          <th scope="col">ingredient</th>
          <th scope="col">how much</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr key={line.ingredient}>
            <td>{line.ingredient}</td>
            <td class="number figure">{amount(line, habits)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
