// Several bakes laid on the hands and places of one house: what is asked, and the plan.
import { useState } from "preact/hooks";
import type { BakeRecordList, DayAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Work } from "../../parts/long_work";
import { Failed, Waiting } from "../../parts/states";
import { after, date, from_utc, hours_between, iso, moment_of, now, type Moment } from "../../say/clock";
import { useTyping } from "../../state/drafts";
import { type TypedDay, day_text, usual_day, wrong_hours } from "../../state/day_text";
import { useLongWork } from "../../state/long_work";
import { DayPlan } from "./plan";
import { BakesOfDay, HouseOfDay, HoursOfDay } from "./asked";
import "./day.css";

const near_h = 4 * 24;
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
  if (!held.answer) return held.error ? <Failed error={held.error} again={held.again} /> : <Waiting what="Looking at the bakes…" />;
  return <Day all={held.answer.bakes} />;
}

type Listed = BakeRecordList["bakes"][number];

/** Planned, with no hour of mixing or one of these days: that is what the day is for. */
const is_near = (bake: Listed) => {
  const mixed = bake.mixed_at === null ? undefined : from_utc(bake.mixed_at);
  return bake.state === "planned" && (mixed === undefined || Math.abs(hours_between(now(), mixed)) <= near_h);
};

function Day({ all }: { all: readonly Listed[] }) {
  const bakes = all.filter((bake) => bake.state === "planned" || bake.state === "finished");
  const typing = useTyping<TypedDay>("day", usual_day(usual_bread(now())));
  const day = typing.value;
  const work = useLongWork<DayAnswer>("day");
  const chosen = bakes.filter((bake) => day.ticked[bake.id] ?? is_near(bake));
  const wrong = wrong_hours(day, now());
  const what = JSON.stringify([day, chosen.map((bake) => bake.id)]);
  const [asked, set_asked] = useState("");
  const begin = () => {
    set_asked(what);
    const bread = moment_of(day.bread);
    work.begin({ day: day_text(day, chosen.map((bake) => bake.id), `Bread for ${bread === undefined ? "the day" : date(bread)}`, now()) });
  };
  return (
    <div class="stack day-screen">
      <h1>Plan the day</h1>
      <div class="day-columns">
        <div class="stack no-print">
          <BakesOfDay bakes={bakes} some_live={all.some((bake) => bake.state === "live")} is_chosen={(bake) => chosen.includes(bake)} typing={typing} />
          <HoursOfDay typing={typing} wrong={wrong} />
          <HouseOfDay typing={typing} />
          {chosen.length === 0 && bakes.length > 0 && <p>Tick a bake, and it can be planned.</p>}
          <Work work={work} words="Plan it" begin={begin} ready={chosen.length > 0 && wrong.bread === undefined && wrong.begins === undefined} />
        </div>
        {work.answer && <DayPlan answer={work.answer} changed={asked !== what && !work.running} />}
      </div>
    </div>
  );
}
