// Every dough and levain that is alive, what to do next and when; what to feed tonight, what to buy, what to weigh.
import { Fold } from "../../parts/fold";
import { NotYet } from "../../parts/not_yet";
import { Waiting } from "../../parts/states";
import type { BakeRecordList, Today } from "../../api/types";
import { useAnswer } from "../../api/use";
import { date, day_words, exact_moment, forecast_moment, from_utc, iso, now, short_forecast, type Moment } from "../../say/clock";
import { useHabits, weight } from "../../say/say";
import type { Habits } from "../../say/habits";
import { link } from "../../shell/router";
import { unsaved_bakes } from "../../state/new_bakes";
import { ByThePlan } from "./by_the_plan";
import { DayClock, all_alive, overlaps } from "./day_clock";
import { Invented } from "./invented";
import { Welcome } from "./welcome";
import "./today.css";

export default function TodayScreen() {
  const held = useAnswer<Today>("/api/today", ["bake", "reading", "culture", "feeding", "bottle", "mark", "setting"]);
  const { answer: today } = held;
  const habits = useHabits();
  if (!today) return <NotYet what="today" held={held} waiting="Looking at the bakery…" />;
  const at = from_utc(today.now) ?? now();
  const alive = all_alive(today);
  if (alive.length === 0) return <Quiet today={today} at={at} />;
  const late = today.doughs.filter((d) => d.late);
  const together = overlaps(alive, at, habits);
  return (
    <div class="stack">
      <Head today={today} at={at} />
      <ByThePlan day={today.day} at={at} habits={habits} />
      <div class="today-top">
        <section class="stack tight" aria-labelledby="clock">
          <h2 id="clock">The next hours</h2>
          <DayClock alive={alive} at={at} habits={habits} />
          {together.map((words) => (
            <p key={words} class="note small">
              {words}
            </p>
          ))}
          {late.map((dough) => (
            <p key={dough.bake} class="note row">
              {dough.title} is late or stuck.{" "}
              <a class="button" href={link("bake", dough.bake, "rescue")} aria-label={`What can be done about ${dough.title}?`}>
                What can be done?
              </a>
            </p>
          ))}
        </section>
        <ToDo today={today} at={at} habits={habits} />
      </div>
      <details>
        <summary>Each dough and levain in words</summary>
        <div class="stack">
          <Doughs doughs={today.doughs} at={at} habits={habits} />
          <Levains levains={today.levains} at={at} habits={habits} />
        </div>
      </details>
    </div>
  );
}

interface Listed {
  at: Moment;
  habits: Habits;
}

function Doughs({ doughs, at, habits }: Listed & Pick<Today, "doughs">) {
  if (doughs.length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby="doughs">
      <h2 id="doughs">Doughs</h2>
      <ul class="bare today-list">
        {[...doughs].sort(by_next).map((dough) => (
          <li key={dough.bake} class="sheet stack tight">
            <h3>
              <a href={link("bake", dough.bake, "read")}>{dough.title}</a>
            </h3>
            <Next words={dough.next} when={dough.next_at} at={at} habits={habits} />
            <Ready dough={dough} habits={habits} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Levains({ levains, at, habits }: Listed & Pick<Today, "levains">) {
  if (levains.length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby="levains">
      <h2 id="levains">Levains</h2>
      <ul class="bare today-list">
        {levains.map((levain) => (
          <li key={levain.culture} class="sheet stack tight">
            <h3>
              <a href={link("culture", levain.culture)}>{levain.title}</a>
            </h3>
            <Next words={levain.next} when={levain.next_at} at={at} habits={habits} />
            {levain.peak_at && <p class="quiet">at its peak {said(levain.peak_at, habits)}, most likely</p>}
            {levain.wanted && <p class="quiet">ripe for doughs: {levain.wanted}</p>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Head({ today, at }: { today: Today; at: Moment }) {
  const habits = useHabits();
  return (
    <header class="stack tight">
      <div class="row apart">
        <h1>{date(at, habits)}</h1>
        <span class="row">
          <a class="button" href={link("day")}>
            Plan the day
          </a>
          <a class="button main" href={link("new")}>
            Start a bake
          </a>
        </span>
      </div>
      {today.clock && <p role="note">Mind: {today.clock}.</p>}
      <Invented invented={today.invented} />
    </header>
  );
}

/** Nothing is alive: what is planned, or, in an empty daybook, how to begin. */
function Quiet({ today, at }: { today: Today; at: Moment }) {
  const habits = useHabits();
  const bakes = useAnswer<BakeRecordList>("/api/bakes?limit=1", ["bake"]);
  if (!bakes.answer && !bakes.error) return <Waiting what="Looking at the bakery…" />;
  if (bakes.answer?.total === 0 && unsaved_bakes().length === 0) return <Welcome />;
  return (
    <div class="stack">
      <Head today={today} at={at} />
      <ByThePlan day={today.day} at={at} habits={habits} />
      <p>No dough and no levain is alive.</p>
      <ToDo today={today} at={at} habits={habits} />
    </div>
  );
}

const to_weigh = (day: string | undefined, at: Moment, habits: Habits) => (!day || day === iso(at).slice(0, 10) ? "Weigh for today's doughs" : `Weigh for the doughs of ${day_words(day, habits)}`);

function ToDo({ today, at, habits }: { today: Today; at: Moment; habits: Habits }) {
  return (
    <div class="today-columns">
      <Words title="Feed tonight" lines={today.feed_tonight} none="Nothing to feed." />
      <Words title="Buy" lines={today.buy} none="Nothing is short." />
      <Fold title={to_weigh(today.weigh_day, at, habits)} fact={today.weigh.length === 0 ? "nothing planned" : `${weight(total(today.weigh), habits)} in all`}>
        {today.weigh.length === 0 ? (
          <p class="quiet">No bread without a drink is planned.</p>
        ) : (
          <table>
            <thead class="unseen">
              <tr>
                <th scope="col">ingredient</th>
                <th scope="col">weight</th>
              </tr>
            </thead>
            <tbody>
              {today.weigh.map((line) => (
                <tr key={line.ingredient}>
                  <td>{line.ingredient}</td>
                  <td class="number figure">{weight(line.mass_g, habits)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </Fold>
    </div>
  );
}

const total = (lines: Today["weigh"]) => lines.reduce((sum, line) => sum + line.mass_g, 0);

const by_next = (a: Today["doughs"][number], b: Today["doughs"][number]) => ((a.next_at ?? "9") < (b.next_at ?? "9") ? -1 : 1);

const said = (text: string, habits: Habits) => {
  const at = from_utc(text);
  return at === undefined ? text : forecast_moment(at, habits);
};

function Next({ words, when, at, habits }: { words: string; when: string | null; at: Moment; habits: Habits }) {
  const moment = when === null ? undefined : from_utc(when);
  const due = moment !== undefined && moment <= at;
  return (
    <p class="next">
      {moment !== undefined && <span class="figure">{due ? "now" : exact_moment(moment, habits)}</span>} {words}
    </p>
  );
}

function Ready({ dough, habits }: { dough: Today["doughs"][number]; habits: Habits }) {
  const [first, middle, last] = [dough.ready_p10_at, dough.ready_p50_at, dough.ready_p90_at].map((t) => (t ? from_utc(t) : undefined));
  if (first === undefined || middle === undefined) return <p>{dough.ready_at}</p>;
  return (
    <p>
      ready about <strong class="figure">{forecast_moment(middle, habits)}</strong>{" "}
      <span class="quiet">
        · likely between {forecast_moment(first, habits)} and {last === undefined ? "later than is looked ahead" : short_forecast(last, first, habits)}
      </span>
      {dough.rests_on && <span class="quiet"> · from {dough.rests_on}</span>}
    </p>
  );
}

function Words({ title, lines, none }: { title: string; lines: readonly string[]; none: string }) {
  const id = title.replace(/\W+/g, "-").toLowerCase();
  return (
    <section class="stack tight" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {lines.length === 0 ? (
        <p class="quiet">{none}</p>
      ) : (
        <ul>
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
