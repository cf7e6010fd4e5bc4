// What to bake next: which dough would settle most, and for how much money.
import type { NextAnswer } from "../../api/test_bakes";
import { Work } from "../../parts/long_work";
import { percent, plain, useHabits } from "../../say/say";
import { useLongWork } from "../../state/long_work";

export function Next({ what }: { what: object }) {
  const habits = useHabits();
  const work = useLongWork<NextAnswer>("testbake-next");
  const { answer } = work;
  return (
    <div class="stack">
      <Work work={work} aside words="What to bake next?" begin={() => work.begin(what)} />
      {answer?.so_far && <p>{answer.so_far}</p>}
      {answer && (
        <ol class="bare stack tight">
          {answer.candidates.slice(0, 12).map((one) => (
            <li key={one.made} class="sheet stack tight">
              <strong>{one.made}</strong>
              <div class="weigh" aria-hidden="true">
                <i style={{ width: `${100 * Math.min(1, Math.max(0, one.settles))}%` }} />
              </div>
              <span>
                settles {percent(Math.max(0, one.settles), habits)} of what is open
                {one.drink_price !== null && `; ${plain(one.drink_price, 2, habits)} ${one.currency} of drink`}
                {one.baked && "; baked before"}
              </span>
              <span class="quiet">{one.reason}</span>
            </li>
          ))}
        </ol>
      )}
    </div>
  );
}
