// How far the drink can go: at once from a few doughs, and on demand from many, which takes a while.
import { useEffect } from "preact/hooks";
import type { ReachAnswer } from "../../api/types";
import { Fold } from "../../parts/fold";
import { Failed } from "../../parts/states";
import { lasting, odds, percent, plain, useHabits } from "../../say/say";
import type { Form } from "../../state/bake";
import { useLongWork } from "../../state/long_work";

const many = 4000;

export function Reach({ reach, asked }: { reach: ReachAnswer; asked: { bake: Form; drink: string; within_h: number } }) {
  const habits = useHabits();
  const work = useLongWork<ReachAnswer>("reach");
  useEffect(() => () => work.stop(), [JSON.stringify(asked)]);
  const closer = work.answer?.drink === reach.drink && work.answer.share_now === reach.share_now && work.answer.within_h === reach.within_h ? work.answer : undefined;
  const { largest_share_of_liquid: share, within_h, wanted_chance, drink, draws } = closer ?? reach;
  return (
    <Fold title={`How far the ${drink} can go`} fact={share === null ? "not even a little" : `up to ${percent(share, habits)}`}>
      {share === null ? (
        <p>
          Not even a little of it: ready within {lasting(within_h)} with {odds(wanted_chance, draws)} cannot be had.
        </p>
      ) : (
        <p>
          Up to <strong class="figure">{percent(share, habits)}</strong> of the liquid, if {odds(wanted_chance, draws)} doughs are to be
          ready within {lasting(within_h)}.
        </p>
      )}
      <p class="quiet">
        {closer && `Now it is ${percent(closer.share_now, habits)} of the liquid: ${odds(closer.chance_now, draws)} doughs are ready in that time. `}Worked out
        from {draws} doughs.
      </p>
      {work.error ? <Failed error={work.error} /> : null}
      {work.running ? (
        <div class="row">
          <progress aria-label="How far the work is" max={1} value={work.progress} />
          <span class="figure">{plain(100 * work.progress, 0, habits)} %</span>
          <button type="button" onClick={work.stop}>
            Stop
          </button>
        </div>
      ) : (
        !closer && (
          <div>
            <button type="button" onClick={() => work.begin({ ...asked, draws: many })}>
              Look closer, with {many} doughs
            </button>
          </div>
        )
      )}
    </Fold>
  );
}
