// Several bakes laid on the hands and places of one house: what is asked, and the plan.
import { useEffect, useMemo, useState } from "preact/hooks";
import type { BakeRecordList, DayAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Work } from "../../parts/long_work";
import { NotYet } from "../../parts/not_yet";
import { Waiting } from "../../parts/states";
import { after, date, from_utc, hours_between, iso, moment_of, now, type Moment } from "../../say/clock";
import { useTyping } from "../../state/drafts";
import { type TypedDay, day_text, usual_day, wrong_hours } from "../../state/day_text";
import { useLongWork } from "../../state/long_work";
import { desk, useMedia } from "../../state/media";
import { can_undo } from "../../state/undo";
import { BakesOfDay, HouseOfDay, HoursOfDay } from "./asked";
import { kept_plan } from "./kept";
import type { Asked } from "./moves";
import { DayPlan } from "./plan";
import "./day.css";

const near_h = 4 * 24;
const longest_under_way_h = 36;
const bread_at = "08:00";
const least_h = 24;

/** The first eight o'clock that is a day away or more. */
function usual_bread(at: Moment): string {
  const day_of = (h: number) => `${iso(after(at, h)).slice(0, 10)}T${bread_at}`;
  const tomorrow = moment_of(day_of(least_h));
  return tomorrow !== undefined && hours_between(at, tomorrow) >= least_h ? day_of(least_h) : day_of(2 * least_h);
}

export default function DayScreen() {
  const held = useAnswer<BakeRecordList>("/api/bakes?limit=200", ["bake"]);
  if (!held.answer) return <NotYet what="plan the day" held={held} waiting="Looking at the bakes…" />;
  return <Day all={held.answer.bakes} />;
}

type Listed = BakeRecordList["bakes"][number];

/** Under way, or planned with no hour of mixing or one of these days: that is what the day is for. */
const is_near = (bake: Listed) => {
  const mixed = bake.mixed_at === null ? undefined : from_utc(bake.mixed_at);
  if (bake.state === "live") return mixed !== undefined && hours_between(mixed, now()) <= longest_under_way_h;
  return bake.state === "planned" && (mixed === undefined || Math.abs(hours_between(now(), mixed)) <= near_h);
};

function Day({ all }: { all: readonly Listed[] }) {
  const bakes = all.filter((bake) => ["planned", "live", "finished"].includes(bake.state));
  const typing = useTyping<TypedDay>("day", usual_day(usual_bread(now())));
  const day = typing.value;
  const work = useLongWork<DayAnswer>("day");
  const chosen = bakes.filter((bake) => day.ticked[bake.id] ?? is_near(bake));
  const wrong = wrong_hours(day, now());
  const what = JSON.stringify([day, chosen.map((bake) => bake.id)]);
  const [begun, set_begun] = useState({ what: "", text: "" });
  const [kept, set_kept] = useState<{ plan: Asked | undefined } | undefined>(undefined);
  const [pressed, set_pressed] = useState(0);
  const at_a_desk = useMedia(desk);
  const [settled, settle] = useState<Asked | undefined>(undefined);
  useEffect(
    () =>
      void kept_plan().then(
        (plan) => set_kept({ plan }),
        () => set_kept({ plan: undefined }),
      ),
    [],
  );
  const begin = (day = typing.value) => {
    const bread = moment_of(day.bread);
    const what = JSON.stringify([day, chosen.map((bake) => bake.id)]);
    const text = day_text(day, chosen.map((bake) => bake.id), `Bread for ${bread === undefined ? "the day" : date(bread)}`, now());
    set_begun({ what, text });
    settle(undefined);
    work.begin({ day: text });
  };
  /** The fields make room for the plan that comes. */
  const plan_it = () => {
    set_pressed((n) => n + 1);
    begin();
  };
  /** That step and those before it of its bake have begun; the rest is laid anew. */
  const begun_now = (answer: DayAnswer, step: DayAnswer["steps"][number]) => {
    const id = chosen[answer.plan.findIndex((one) => one.bake === step.bake)]?.id;
    if (id === undefined) return;
    const of_bake = answer.steps.filter((one) => one.bake === step.bake);
    const begun = of_bake.slice(0, of_bake.findIndex((one) => one.step === step.step) + 1).filter((one) => !one.begun);
    const at = (text: string) => iso(Math.min(from_utc(text) ?? now(), now()) as Moment).slice(0, 16);
    const done = { ...day.done[id], ...Object.fromEntries(begun.map((one) => [one.step, one === begun.at(-1) ? iso(now()).slice(0, 16) : at(one.begins)])) };
    const next = { ...day, done: { ...day.done, [id]: done } };
    typing.set({ done: next.done });
    can_undo(`${step.step}: ${step.bake} has started.`, async () => typing.set({ done: day.done }));
    begin(next);
  };
  const ready = chosen.length > 0 && wrong.bread === undefined && wrong.begins === undefined;
  const found = useMemo(() => (work.answer ? { text: begun.text, answer: work.answer } : kept?.plan), [work.answer, kept]);
  const asked = settled ?? found;
  if (!kept) return <Waiting what="Looking for a plan that is kept…" />;
  // At a desk there is room for both.
  const turn = at_a_desk ? 0 : pressed;
  const asking = work.error !== undefined || (!asked && !work.running);
  return (
    <div class="stack day-screen">
      <h1>Plan the day</h1>
      <div class="day-columns">
        <div class="stack no-print">
          <BakesOfDay bakes={bakes} is_chosen={(bake) => chosen.includes(bake)} typing={typing} open={asking} turn={turn} />
          {bakes.length > 0 && (
            <>
              <HoursOfDay typing={typing} wrong={wrong} open={asking || wrong.bread !== undefined || wrong.begins !== undefined} turn={turn} />
              <HouseOfDay typing={typing} turn={turn} />
              {chosen.length === 0 && <p>Tick a bake, and it can be planned.</p>}
              <Work work={work} words="Plan it" begin={plan_it} ready={ready} />
            </>
          )}
        </div>
        {asked && (
          <DayPlan
            asked={asked}
            changed={!work.running && begun.what !== "" && begun.what !== what}
            plan_again={ready ? plan_it : undefined}
            begun_now={ready && work.answer && begun.what === what ? begun_now : undefined}
            settle={settle}
          />
        )}
      </div>
    </div>
  );
}
