// Every dough and levain that is alive, what to do next and when; what to feed tonight, what to buy, what to weigh.
import { Failed, Waiting } from "../../parts/states";
import type { Today } from "../../api/types";
import { useAnswer } from "../../api/use";
import { date, exact_moment, forecast_moment, hours_between, from_utc, now, type Moment } from "../../say/clock";
import { useHabits, weight } from "../../say/say";
import type { Habits } from "../../say/habits";
import { link } from "../../shell/router";
import "./today.css";

export default function TodayScreen() {
  const held = useAnswer<Today>("/api/today", ["bake", "reading", "culture", "feeding", "bottle", "mark"]);
  const { answer: today, error } = held;
  if (!today) return error ? <Failed error={error} again={held.again} /> : <Waiting what="Looking at the bakery…" />;
  const habits = useHabits();
  const at = from_utc(today.now) ?? now();
  const nothing = today.doughs.length + today.levains.length === 0;
  return (
    <div class="stack">
      <header>
        <h1>{date(at)}</h1>
        {today.clock && <p role="note">Mind: {today.clock}.</p>}
      </header>
      {nothing && (
        <div class="stack tight">
          <p>No dough and no levain is alive.</p>
          <p>
            <a class="button main" href={link("new")}>
              Start a bake
            </a>
          </p>
        </div>
      )}
      {today.doughs.length > 0 && (
        <section class="stack tight" aria-labelledby="doughs">
          <h2 id="doughs">Doughs alive</h2>
          <ul class="bare today-list">
            {[...today.doughs].sort(by_next).map((dough) => (
              <li key={dough.bake} class="sheet stack tight">
                <h3>
                  <a href={link("bake", dough.bake, "read")}>{dough.title}</a>
                </h3>
                <Next words={dough.next} when={dough.next_at} at={at} habits={habits} />
                <ReadyBar dough={dough} at={at} habits={habits} />
              </li>
            ))}
          </ul>
        </section>
      )}
      {today.levains.length > 0 && (
        <section class="stack tight" aria-labelledby="levains">
          <h2 id="levains">Levains alive</h2>
          <ul class="bare today-list">
            {today.levains.map((levain) => (
              <li key={levain.culture} class="sheet stack tight">
                <h3>
                  <a href={link("culture", levain.culture)}>{levain.title}</a>
                </h3>
                <Next words={levain.next} when={levain.next_at} at={at} habits={habits} />
                {levain.peak_at && <p class="quiet">at its peak {said(levain.peak_at, habits)}, most likely</p>}
              </li>
            ))}
          </ul>
        </section>
      )}
      <div class="today-columns">
        <Words title="Feed tonight" lines={today.feed_tonight} none="Nothing to feed." />
        <Words title="Buy" lines={today.buy} none="Nothing is short." />
        <section class="stack tight" aria-labelledby="weigh">
          <h2 id="weigh">Weigh for today's doughs</h2>
          {today.weigh.length === 0 ? (
            <p class="quiet">Nothing planned for today.</p>
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
        </section>
      </div>
      {!nothing && (
        <p>
          <a class="button" href={link("new")}>
            Start a bake
          </a>
        </p>
      )}
    </div>
  );
}

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

/** The ready window on a line that begins now and runs a day. */
function ReadyBar({ dough, at, habits }: { dough: Today["doughs"][number]; at: Moment; habits: Habits }) {
  const [first, middle, last] = [dough.ready_p10_at, dough.ready_p50_at, dough.ready_p90_at].map((t) => (t ? from_utc(t) : undefined));
  if (first === undefined || middle === undefined) return <p>{dough.ready_at}</p>;
  const width = Math.max(12, hours_between(at, last ?? middle) * 1.1);
  const place = (m: Moment) => `${Math.min(100, Math.max(0, (100 * hours_between(at, m)) / width))}%`;
  const end = last === undefined ? "100%" : place(last);
  return (
    <div class="stack tight">
      <p>
        ready <strong class="figure">{forecast_moment(middle, habits)}</strong>, most likely{" "}
        <span class="quiet">
          · 4 of 5 between {forecast_moment(first, habits)} and {last === undefined ? "later than is looked ahead" : forecast_moment(last, habits)}
        </span>
        {dough.rests_on && <span class="quiet"> · by {dough.rests_on}</span>}
      </p>
      <div class="day-line" aria-hidden="true">
        <i class="window" style={{ left: place(first), right: `calc(100% - ${end})` }} />
        <i class="middle" style={{ left: place(middle) }} />
      </div>
    </div>
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
