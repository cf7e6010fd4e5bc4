// The answer to a recipe: when, how sure, what is in the way; the curve; the jar; how far the drink can go; the bowl.
import type { Bake } from "../../api/bakes";
import type { Bowl, ReadingRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Failed, Waiting } from "../../parts/states";
import { InTheWay } from "../../parts/way";
import { Jar } from "../../parts/jar";
import { Begun } from "../../parts/begun";
import { ReadyLine, Ruler, WindowWords } from "../../parts/ruler";
import { Rise, worth_seeing } from "../../parts/rise";
import type { Habits } from "../../say/habits";
import { type Moment, after, hours_between, now } from "../../say/clock";
import { percent, two_figures, useHabits, weight } from "../../say/say";
import type { Form } from "../../state/bake";
import { when } from "../../parts/ruler";
import { ratios } from "../../state/readings";
import { useMemo } from "preact/hooks";
import { Calendar } from "./calendar";
import { Reach } from "./reach";
import type { Foresight } from "./foresight";

interface Shown {
  foresight: Foresight;
  mixed: Moment | undefined;
}

export function AnswerTop({ foresight, mixed }: Shown) {
  const habits = useHabits();
  const { answer, error, asking } = foresight;
  if (!answer) return error ? <Failed error={error} /> : <Waiting what={asking ? "Looking ahead…" : ""} />;
  const shown = { forecast: answer, mixed, habits, now: now() };
  return (
    <section class={error ? "stack tight old" : "stack tight"} aria-labelledby="ready">
      <h2 id="ready" class="unseen">
        Ready
      </h2>
      {error ? (
        <p class="note small" role="alert">
          This is still the answer from before your last change: see the recipe for what is wrong.
        </p>
      ) : null}
      <ReadyLine {...shown} />
      <Ruler {...shown} />
      <WindowWords {...shown} only="window" />
    </section>
  );
}

export function Why({ foresight, mixed }: Shown) {
  const habits = useHabits();
  const { answer } = foresight;
  if (!answer) return null;
  return (
    <>
      <WindowWords forecast={answer} mixed={mixed} habits={habits} only="more" />
      <Begun culture={answer.culture} />
      <InTheWay answer={answer} mixed={mixed} habits={habits} />
    </>
  );
}

export function Answer({ foresight, mixed, record, form }: Shown & { record: Bake; form: Form }) {
  const habits = useHabits();
  const { answer, reach } = foresight;
  const readings = useAnswer<ReadingRecordList>(record.revision === 0 ? undefined : `/api/readings?owner=${record.id}&limit=500`, ["reading"]).answer?.readings;
  const runs = useMemo(
    () => (answer ? [{ name: answer.bowl.name, points: worth_seeing(answer), readings: ratios(readings ?? [], mixed) }] : []),
    [answer, readings, mixed],
  );
  if (!answer) return null;
  const now_h = mixed === undefined ? undefined : hours_between(mixed, now());
  return (
    <>
      {reach && <Reach reach={reach} form={form} culture={record.culture} habits={habits} />}
      <InTheBowl bowl={answer.bowl} habits={habits} />
      <section class="stack tight" aria-labelledby="rise">
        <h2 id="rise">The rise</h2>
        <Rise runs={runs} goal_ratio={answer.target_volume_ratio} now_h={now_h} mixed={mixed} habits={habits} title="Rise of this dough" />
      </section>
      <section class="stack tight" aria-labelledby="jar">
        <h2 id="jar">The jar, to scale</h2>
        <p class="quiet small">A straight glass filled to 40 mm at mixing.</p>
        <Jar start_mm={40} goal_ratio={answer.target_volume_ratio} jar_mm={140} habits={habits} />
      </section>
      <Stages answer={answer} mixed={mixed} habits={habits} />
      <Calendar record={record} form={form} />
      <Cautions cautions={[...answer.cautions, ...answer.bowl.cautions]} doubts={answer.bowl.doubts} />
    </>
  );
}

export function InTheBowl({ bowl, habits }: { bowl: Bowl; habits: Habits }) {
  return (
    <section class="stack tight" aria-labelledby="bowl">
      <h2 id="bowl">In the bowl</h2>
      <table data-testid="bowl">
        <thead class="unseen">
          <tr>
            <th scope="col">what</th>
            <th scope="col">weight</th>
            <th scope="col">of the flour</th>
          </tr>
        </thead>
        <tbody>
          {bowl.lines.map((line) => (
            <tr key={line.ingredient}>
              <td>{line.ingredient}</td>
              <td class="number figure">{weight(line.actual_g, habits)}</td>
              <td class="number quiet">{percent(line.of_flour, habits)}</td>
            </tr>
          ))}
          <tr>
            <td>dough</td>
            <td class="number figure">{weight(bowl.dough_g, habits)}</td>
            <td />
          </tr>
        </tbody>
      </table>
      <dl class="between">
        <dt>real water</dt>
        <dd>
          {percent(bowl.real_water_of_flour, habits)} of the flour; liquid as bakers count it {percent(bowl.liquid_of_flour, habits)}
        </dd>
        <dt>alcohol</dt>
        <dd>
          {weight(bowl.ethanol_g, habits)} of pure alcohol: {percent(bowl.ethanol_of_dough, habits)} of the dough by weight
        </dd>
        <dt>acid</dt>
        <dd>pH {two_figures(bowl.ph_at_mixing, habits)} to start</dd>
      </dl>
    </section>
  );
}

function Stages({ answer, mixed, habits }: { answer: NonNullable<Foresight["answer"]>; mixed: Moment | undefined; habits: Habits }) {
  if (answer.stages.length < 2) return null;
  return (
    <details>
      <summary>The stages, with every number as the book has it</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">stage</th>
            <th scope="col">until</th>
            <th scope="col">the dough then</th>
          </tr>
        </thead>
        <tbody>
          {answer.stages.map((stop, i) => (
            <tr key={i}>
              <td>{stop.step}</td>
              <td>{when(stop.end_h, mixed, habits)}</td>
              <td>
                {two_figures(stop.volume_ratio, habits)} times, pH {two_figures(stop.ph, habits)}
                {!stop.reached ? "; not there within the time looked at" : stop.room_left < 0.05 ? "; at its limit, it holds no more gas" : ""}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

export function Cautions({ cautions, doubts }: { cautions: readonly string[]; doubts: readonly string[] }) {
  return (
    <>
      {doubts.length > 0 && (
        <section class="stack tight" aria-labelledby="doubt">
          <h2 id="doubt">Not known</h2>
          <ul>
            {doubts.map((doubt) => (
              <li key={doubt}>{doubt}</li>
            ))}
          </ul>
        </section>
      )}
      {cautions.length > 0 && (
        <section class="stack tight" aria-labelledby="care">
          <h2 id="care">Take care</h2>
          <ul>
            {cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

export const ready_moment = (mixed: Moment | undefined, h: number | null) =>
  mixed === undefined || h === null ? undefined : after(mixed, h);
