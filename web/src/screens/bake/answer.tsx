// The answer to a recipe: when, how sure, what is in the way; the curve; the jar; how far the drink can go; the bowl.
import type { Bake } from "../../api/bakes";
import type { Bowl, ForeseeAnswer, ReadingRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { InTheWay } from "../../parts/way";
import { Begun } from "../../parts/begun";
import { about } from "../../parts/head";
import { WindowWords, window_words } from "../../parts/ruler";
import { Fold } from "../../parts/fold";
import { Rise, worth_seeing } from "../../parts/rise";
import type { Habits } from "../../say/habits";
import { type Moment, after, hours_between, now } from "../../say/clock";
import { core, how_long, percents } from "../../say/oven";
import { odds, percent, two_figures, useHabits, weight } from "../../say/say";
import type { Form } from "../../state/bake";
import { readings_of_bake } from "../../state/known_readings";
import { ratios } from "../../state/readings";
import { useMemo } from "preact/hooks";
import { Calendar } from "./calendar";
import type { Foresight } from "../../state/foresight";
import { When } from "./when";

interface Shown {
  foresight: Foresight;
  mixed: Moment | undefined;
}

export function Why({ foresight, mixed }: Shown) {
  const habits = useHabits();
  const { answer } = foresight;
  if (!answer) return null;
  return <InTheWay answer={answer} mixed={mixed} habits={habits} />;
}

export function Answer({ foresight, mixed, record, form }: Shown & { record: Bake; form: Form }) {
  const habits = useHabits();
  const { answer } = foresight;
  if (!answer) return null;
  return (
    <>
      <Fold title="The rise" fact={rise_fact(answer, mixed, habits)}>
        <WindowWords forecast={answer} mixed={mixed} habits={habits} only="more" />
        <Begun culture={answer.culture} />
        <Curve answer={answer} mixed={mixed} record={record} habits={habits} />
        {answer.out_of_the_cold && <p data-testid="out-of-the-cold">{answer.out_of_the_cold.words}.</p>}
        <Stages answer={answer} mixed={mixed} habits={habits} />
      </Fold>
      <Fold title="When to mix" fact="for bread at an hour">
        <When form={form} culture={record.culture} habits={habits} />
        <Calendar record={record} form={form} />
      </Fold>
      <Cautions cautions={[...answer.cautions, ...answer.bowl.cautions]} doubts={answer.bowl.doubts} />
    </>
  );
}

function Curve({ answer, mixed, record, habits }: { answer: ForeseeAnswer; mixed: Moment | undefined; record: Bake; habits: Habits }) {
  const readings = useAnswer<ReadingRecordList>(record.revision === 0 ? undefined : readings_of_bake(record.id), ["reading"]).answer?.readings;
  const runs = useMemo(() => [{ name: answer.bowl.name, points: worth_seeing(answer), readings: ratios(readings ?? [], mixed) }], [answer, readings, mixed]);
  const now_h = mixed === undefined ? undefined : hours_between(mixed, now());
  return <Rise runs={runs} goal_ratio={answer.target_volume_ratio} now_h={now_h} mixed={mixed} habits={habits} title="Rise of this dough" />;
}

/** When to look again and when it is too late. */
function rise_fact(answer: ForeseeAnswer, mixed: Moment | undefined, habits: Habits): string {
  return window_words({ forecast: answer, mixed, habits })
    .slice(1, 3)
    .map(({ what, says }) => `${what} ${says}`)
    .join(", ");
}

export function InTheBowl({ bowl, habits }: { bowl: Bowl; habits: Habits }) {
  return (
    <Fold title="In the bowl" fact={`${percent(bowl.real_water_of_flour, habits)} real water, pH ${two_figures(bowl.ph_at_mixing, habits)}`}>
      <dl class="between">
        <dt>dough</dt>
        <dd>{weight(bowl.dough_g, habits)}</dd>
        <dt>real water</dt>
        <dd>
          {percent(bowl.real_water_of_flour, habits)} of all flour; liquid as bakers count it {percent(bowl.liquid_of_flour, habits)}
        </dd>
        <dt>alcohol</dt>
        <dd>
          {weight(bowl.ethanol_g, habits)} of pure alcohol: {percent(bowl.ethanol_of_dough, habits)} of the dough by weight
        </dd>
        <dt>acid</dt>
        <dd>pH {two_figures(bowl.ph_at_mixing, habits)} to start</dd>
      </dl>
      <p class="quiet small">Percent is of {bowl.percent_of.replace("'", "’")}; choose under the size of the dough.</p>
    </Fold>
  );
}

const between = (range: { p10: number | null; p90: number | null }, habits: Habits): string => {
  const low = range.p10 === null ? "" : two_figures(range.p10, habits);
  const high = range.p90 === null ? "" : two_figures(range.p90, habits);
  return low === high ? low : `${low} to ${high}`;
};

/** How the dough stands then; of the last two stages the loaf. */
function then(stage: ForeseeAnswer["stages"][number], { oven, to_do }: ForeseeAnswer, mixed: Moment | undefined, habits: Habits): string {
  const further = oven?.further_loads[(stage.load ?? 1) - 2];
  if (stage.step === "oven" && further) return `in ${about(stage.begin, mixed, habits)}; ${further}`;
  if (stage.step === "oven" && oven) return `in it ${how_long(oven)}; core ${core(oven, habits)}, ${percents(oven.loss, habits)} lighter`;
  const cut = to_do.find((one) => one.act === "cut" && one.load === stage.load);
  if (stage.step === "cooling" && cut) return `cool enough to bag; to cut ${about(cut, mixed, habits)}`;
  return `${between(stage.volume_ratio, habits)} times, pH ${between(stage.ph, habits)}`;
}

function Stages({ answer, mixed, habits }: { answer: NonNullable<Foresight["answer"]>; mixed: Moment | undefined; habits: Habits }) {
  const stages = answer.stages.filter((stage) => !["mix", "fold", "divide", "shape"].includes(stage.step));
  if (stages.length < 2) return null;
  return (
    <details>
      <summary>The stages, step by step</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">stage</th>
            <th scope="col">until</th>
            <th scope="col">then</th>
          </tr>
        </thead>
        <tbody>
          {stages.map((stage, i) => (
            <tr key={i}>
              <td>
                {stage.step}
                {(stage.load ?? 1) > 1 && ` ${stage.load}`}
              </td>
              <td>{about(stage.end, mixed, habits)}</td>
              <td>
                {stage.chance < 0.5 ? `${odds(stage.chance, answer.draws)} get through it in time` : then(stage, answer, mixed, habits)}
                {stage.room_left.p50 !== null && stage.room_left.p50 < 0.05 ? "; at its limit, it holds no more gas" : ""}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

/** "of dry mead": whom the doubts are about, as each says before its colon. */
const about_whom = (doubts: readonly string[]) => [...new Set(doubts.map((doubt) => doubt.split(":")[0]))].slice(0, 2).join(", ");

export function Cautions({ cautions, doubts }: { cautions: readonly string[]; doubts: readonly string[] }) {
  return (
    <>
      {doubts.length > 0 && (
        <Fold title="Not known" fact={about_whom(doubts)}>
          <ul>
            {doubts.map((doubt) => (
              <li key={doubt}>{doubt}</li>
            ))}
          </ul>
        </Fold>
      )}
      {cautions.length > 0 && (
        <details class="care">
          <summary>Take care: {cautions.length} things</summary>
          <ul>
            {cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

export const ready_moment = (mixed: Moment | undefined, h: number | null) =>
  mixed === undefined || h === null ? undefined : after(mixed, h);
