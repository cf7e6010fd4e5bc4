// One step moved by hand, by tap or by a typed hour.
import { useState } from "preact/hooks";
import type { DayAnswer } from "../../api/types";
import { Sheet } from "../../parts/sheet";
import { Failed } from "../../parts/states";
import { WhenField } from "../../parts/when_field";
import { after, exact_moment, from_utc, iso, moment_of, type Moment } from "../../say/clock";
import { useHabits } from "../../say/say";
import type { Moves } from "./moves";

export type Step = DayAnswer["steps"][number];

const taps: readonly (readonly [string, number])[] = [
  ["1 h earlier", -60], ["15 min earlier", -15], ["5 min earlier", -5],
  ["5 min later", 5], ["15 min later", 15], ["1 h later", 60],
];

const at = (text: string) => from_utc(text) ?? (0 as Moment);

export function MoveSheet({ step, moves, begun_now, close }: { step: Step; moves: Moves; begun_now: (() => void) | undefined; close: () => void }) {
  const habits = useHabits();
  const begins = at(step.begins);
  const [asked, set_asked] = useState<Moment>(begins);
  const ask = (to: Moment) => {
    set_asked(to);
    void moves.move(step.bake, step.step, to);
  };
  return (
    <Sheet title={`${step.step}: ${step.bake}`} close={close}>
      <p>
        Begins <strong class="figure">{exact_moment(begins, habits)}</strong>
        {step.earliest && step.latest && (
          <span class="quiet">
            {" "}
            · with the house to itself {exact_moment(at(step.earliest), habits)} to {exact_moment(at(step.latest), habits)}
          </span>
        )}
      </p>
      <div class="day-taps">
        {taps.map(([words, minutes]) => (
          <button key={words} type="button" disabled={moves.waiting} onClick={() => ask(after(asked, minutes / 60))}>
            {words}
          </button>
        ))}
      </div>
      <WhenField label="Begin at" value={iso(asked)} give={(text) => ask(moment_of(text) ?? asked)} />
      {begun_now && (
        <div>
          <button type="button" onClick={begun_now}>
            It begins now: plan the rest again
          </button>
        </div>
      )}
      <Told moves={moves} asked={asked} />
    </Sheet>
  );
}

/** What came of the last move. */
export function Told({ moves, asked }: { moves: Moves; asked?: Moment }) {
  const habits = useHabits();
  return (
    <div class="stack tight" role="status">
      {moves.refused && asked !== undefined && <p class="quiet">Asked for {exact_moment(asked, habits)}:</p>}
      {moves.told.map((line) => (
        <p key={line} class={moves.refused ? "note" : ""}>
          {line}
        </p>
      ))}
      {moves.error ? <Failed error={moves.error} /> : null}
    </div>
  );
}
