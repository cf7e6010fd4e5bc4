// What a plan of the day is asked with: which bakes, when the bread is wanted, what the house has.
import type { BakeRecordList } from "../../api/types";
import { Figure, Tick } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { WhenField } from "../../parts/when_field";
import { clock, exact_moment, moment_of } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { link } from "../../shell/router";
import { type House, type TypedDay, hour_text } from "../../state/day_text";
import type { Typing } from "../../state/drafts";

type Listed = BakeRecordList["bakes"][number];

const most = 500;

const of_them = (n: number) => (n === 1 ? "1 bake" : `${n} bakes`);

export function BakesOfDay(props: { bakes: readonly Listed[]; is_chosen: (bake: Listed) => boolean; typing: Typing<TypedDay>; open: boolean; turn: number }) {
  const planned = props.bakes.filter((bake) => bake.state === "planned");
  const live = props.bakes.filter((bake) => bake.state === "live");
  const baked = props.bakes.filter((bake) => bake.state === "finished");
  return (
    <Fold title="Which bakes" fact={of_them(props.bakes.filter(props.is_chosen).length)} open={props.open} turn={props.turn}>
      {props.bakes.length === 0 && (
        <p>
          No bake is planned yet. <a href={link("new")}>Write one</a>, and it can be laid into the day.
        </p>
      )}
      <BakeLines {...props} kind="planned" bakes={planned} />
      {live.length > 0 && (
        <>
          <p class="quiet small">Mixed already: by their readings and by what was ticked off.</p>
          <BakeLines {...props} kind="live" bakes={live} />
        </>
      )}
      {baked.length > 0 && (
        <details open={baked.some(props.is_chosen)}>
          <summary>Baked before, once more</summary>
          <BakeLines {...props} kind="baked" bakes={baked} />
        </details>
      )}
    </Fold>
  );
}

function BakeLines({ kind, bakes, is_chosen, typing }: { kind: string; bakes: readonly Listed[]; is_chosen: (bake: Listed) => boolean; typing: Typing<TypedDay> }) {
  const { ticked, loaves } = typing.value;
  return (
    <ul class="bare" data-kind={kind}>
      {bakes.map((bake) => (
        <li key={bake.id} class="day-bake">
          <Tick label={bake.title} value={is_chosen(bake)} give={(on) => typing.set({ ticked: { ...ticked, [bake.id]: on } })} />
          {is_chosen(bake) && (
            <Figure<number | undefined>
              label={`Loaves of ${bake.title}`}
              shown={loaves[bake.id] === undefined ? "" : String(loaves[bake.id])}
              read={typed.or_empty((text) => typed.count(text, most, 1))}
              give={(n) => typing.set({ loaves: { ...loaves, [bake.id]: n } })}
              input={{ inputMode: "numeric", placeholder: "as in its recipe" }}
            />
          )}
        </li>
      ))}
    </ul>
  );
}

export function HoursOfDay({ typing, wrong, open, turn }: { typing: Typing<TypedDay>; wrong: { bread?: string; begins?: string }; open: boolean; turn: number }) {
  const { bread, begins, night } = typing.value;
  const habits = useHabits();
  const at_night = (label: string, end: "from" | "to") => (
    <Figure<number | undefined>
      label={label}
      shown={night === null ? "" : shown_hour(night[end], habits)}
      read={typed.or_empty(typed.clock_time)}
      give={(minutes) => typing.set({ night: minutes === undefined ? null : { ...(night ?? { from: 22 * 60, to: 4 * 60 }), [end]: minutes } })}
      input={{ inputMode: "text", placeholder: "every night is worked" }}
    />
  );
  return (
    <Fold title="When" fact={`bread cooled by ${said(bread, habits)}`} open={open} turn={turn}>
      <div class="pair">
        <WhenField label="Bread cooled by" value={bread} give={(text) => typing.set({ bread: text })} wrong={wrong.bread} />
        <WhenField label="Begin not before" empty="now" value={begins} give={(text) => typing.set({ begins: text })} wrong={wrong.begins} />
        {at_night("Nobody works from", "from")}
        {at_night("Until", "to")}
      </div>
    </Fold>
  );
}

const said = (text: string, habits: Habits) => {
  const at = moment_of(text);
  return at === undefined ? "no hour yet" : exact_moment(at, habits);
};

const shown_hour = (minutes: number, habits: Habits) => clock(moment_of(`2026-11-27T${hour_text(minutes)}`) ?? (0 as never), habits);

const fields: readonly (readonly [keyof House, string, number])[] = [
  ["hands", "Pairs of hands", 1],
  ["mixers", "Mixers", 0],
  ["bench", "Doughs on the bench at once", 1],
  ["fridge", "Loaves the fridge takes", 0],
  ["decks", "Decks of the oven", 1],
  ["loaves_on_a_deck", "Loaves on a deck", 1],
];

export function HouseOfDay({ typing, turn }: { typing: Typing<TypedDay>; turn: number }) {
  return (
    <Fold title="The house" fact={`${typing.value.hands === 1 ? "1 pair" : `${typing.value.hands} pairs`} of hands, ${typing.value.decks} × ${typing.value.loaves_on_a_deck} loaves in the oven`} turn={turn}>
      <div class="day-counts">
        {fields.map(([key, label, least]) => (
          <Figure key={key} label={label} shown={String(typing.value[key])} read={(text) => typed.count(text, most, least)} give={(n) => typing.set({ [key]: n })} input={{ inputMode: "numeric" }} />
        ))}
      </div>
      <Tick label="Shaped loaves may wait in the fridge, 8 to 16 hours" value={typing.value.cold} give={(cold) => typing.set({ cold })} />
    </Fold>
  );
}
