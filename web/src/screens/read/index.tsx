// Reading a dough with one thumb: slide or type how high it stands in its jar; the ready window moves and narrows.
import { useMemo } from "preact/hooks";
import { type Bake, mixed_of } from "../../api/bakes";
import type { Outlook } from "../../api/types";
import { BakeFrame } from "../../parts/bake_frame";
import { Fold } from "../../parts/fold";
import { Failed, Waiting } from "../../parts/states";
import { Jar } from "../../parts/jar";
import { Head } from "../../parts/head";
import { ReadyLine, Ruler, WindowWords, hopeless, when } from "../../parts/ruler";
import { Begun } from "../../parts/begun";
import { Rise, worth_seeing } from "../../parts/rise";
import type { RisePoint } from "../../parts/rise_run";
import { StageMarks } from "../../parts/stage_marks";
import { type Moment, hours_between, now, zone_here } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { lasting, odds, plain, span, useHabits, hours } from "../../say/say";
import { useKnownReadings } from "../../state/known_readings";
import { ratios, start_height } from "../../state/readings";
import { useTyping } from "../../state/drafts";
import type { Params } from "../../shell/names";
import { NoteReading, type Noting, fresh_h, lies_h, nothing_typed } from "./note_reading";
import { ReadingList } from "./reading_list";
import { type SeenForecast, useSeen } from "./seen";
import "./read.css";

export default function ReadScreen({ params }: { params: Params }) {
  return (
    <BakeFrame id={params.id ?? ""} here="Read">
      {(record) => <Read key={record.id} record={record} />}
    </BakeFrame>
  );
}

const usual_start_mm = 40;

function Read({ record }: { record: Bake }) {
  const habits = useHabits();
  const { all, there, error } = useKnownReadings(record);
  const mixed = mixed_of(record, record.form);
  const complete = all.map((r) => ({ at: r.at, height_mm: r.height_mm ?? null, ratio: r.ratio ?? null }));
  const start = start_height(complete);
  const typing = useTyping<Noting>(`read.${record.id}`, nothing_typed);
  const height = typing.value.height_mm ?? undefined;
  const slid = lies_h(typing) < fresh_h;
  const seen = useSeen(record, there || error ? all : undefined, start === undefined || !slid ? undefined : height, mixed);
  const answer = seen.now;
  const seen_ratios = ratios(complete, mixed);
  const now_h = mixed === undefined ? undefined : hours_between(mixed, now());
  const expected = answer && now_h !== undefined ? band_at(answer.rise, now_h) : undefined;
  const last = complete.filter((r) => r.height_mm !== null).at(-1)?.height_mm ?? undefined;
  const start_mm = start ?? height ?? usual_start_mm;
  const shown_mm = height ?? last ?? start_mm;
  const runs = useMemo(
    () => (answer ? [{ name: record.title, points: worth_seeing(answer), readings: seen_ratios }] : []),
    [answer, all],
  );
  return (
    <div class="read-screen">
      <div class="stack top">
        {answer ? <Window answer={answer} before={seen.before} mixed={mixed} /> : seen.error ? <Failed error={seen.error} again={seen.again} /> : <Waiting what="Looking ahead…" />}
      </div>
      <div class="hand stack">
        <Jar
          start_mm={start_mm}
          goal_ratio={answer?.target_volume_ratio ?? 2}
          now_mm={shown_mm}
          expected={expected && start !== undefined ? { low_ratio: expected.p10_ratio, high_ratio: expected.p90_ratio } : undefined}
          jar_mm={140}
          habits={habits}
        />
        <NoteReading record={record} start={start} height={shown_mm} typing={typing} mixed={mixed} />
      </div>
      <div class="rest stack">
        <StageMarks record={record} />
        {seen.doubts.length > 0 && <Doubts lines={seen.doubts} />}
        {seen.notes.map((note) => (
          <p key={note} class="note">
            {note[0]?.toUpperCase()}
            {note.slice(1)}.
          </p>
        ))}
        {answer && (
          <Fold title="How long it stays good" fact={good_words(seen.outlook, mixed, habits)}>
            <WindowWords forecast={answer} mixed={mixed} now={now()} habits={habits} only="more" />
            {seen.outlook && <Good outlook={seen.outlook} mixed={mixed} />}
            <Begun culture={seen.culture} />
            {mixed !== undefined && (
              <p>
                <a class="button" href={`/api/bakes/${record.id}/calendar.ics?zone=${encodeURIComponent(zone_here())}`} download={`${record.title}.ics`}>
                  Calendar file with alarms
                </a>
              </p>
            )}
          </Fold>
        )}
        {seen.taught.length > 0 && (
          <Fold title="What your readings say" fact={seen.taught[0]}>
            <ul>
              {seen.taught.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </Fold>
        )}
        {answer && (
          <Fold title="The rise" fact={now_h === undefined ? "" : stands(answer, now_h, habits)}>
            <Rise runs={runs} goal_ratio={answer.target_volume_ratio} now_h={now_h} mixed={mixed} habits={habits} />
          </Fold>
        )}
        <ReadingList readings={all} mixed={mixed} start={start} />
      </div>
    </div>
  );
}

/** How long it stays good, and what the next look would tell. */
function Good({ outlook, mixed }: { outlook: Outlook; mixed: Moment | undefined }) {
  const habits = useHabits();
  const { good_from_h, good_until_h, best_at_h, next_look } = outlook;
  const range = (value: unknown) => (typeof value === "number" ? lasting(value) : "");
  return (
    <dl class="between">
      {good_from_h !== null && good_until_h !== null && [
        <dt key="good">good</dt>,
        <dd key="good.">
          from {when(good_from_h, mixed, habits)} to {when(good_until_h, mixed, habits)}
          {best_at_h !== null && `, best time ${when(best_at_h, mixed, habits)}`}
        </dd>,
      ]}
      {next_look && [
        <dt key="look">the next look</dt>,
        <dd key="look.">
          would narrow {range(next_look.range_now_h)} to about {range(next_look.range_after_h)}
        </dd>,
      ]}
    </dl>
  );
}

/** Until when it stays good, as far as that is known. */
function good_words(outlook: Outlook | undefined, mixed: Moment | undefined, habits: Habits): string | undefined {
  if (!outlook || outlook.good_from_h === null || outlook.good_until_h === null) return undefined;
  return `${when(outlook.good_from_h, mixed, habits)} to ${when(outlook.good_until_h, mixed, habits)}`;
}

/** How high it likely stands now. */
function stands({ rise }: SeenForecast, now_h: number, habits: Habits): string | undefined {
  const band = band_at(rise, now_h);
  if (!band) return undefined;
  const [low, high] = [plain(band.p10_ratio, 1, habits), plain(band.p90_ratio, 1, habits)];
  return low === high ? `now likely ${low} times` : `now likely ${low} to ${high} times`;
}

function Doubts({ lines }: { lines: readonly string[] }) {
  return (
    <section class="stack tight">
      <h2>Look twice</h2>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}

function Window({ answer, before, mixed }: { answer: SeenForecast; before: SeenForecast | undefined; mixed: Moment | undefined }) {
  const habits = useHabits();
  const shown = { forecast: answer, mixed, habits, now: now() };
  const width = (f: SeenForecast) => (f.ready.p10_h === null || f.ready.p90_h === null ? undefined : f.ready.p90_h - f.ready.p10_h);
  const [was, is] = [before && width(before), width(answer)];
  return (
    <section class="stack tight" aria-label="Ready" aria-live="polite">
      <Head head={answer.head} mixed={mixed} habits={habits} />
      <ReadyLine {...shown} />
      <Ruler {...shown} />
      <WindowWords {...shown} only="window" />
      {is !== undefined && was !== undefined && Math.abs(was - is) > 0.1 && (
        <p className="small" data-testid="narrowed">
          The window is {span(hours(is))} wide; it was {span(hours(was))}.
        </p>
      )}
      {hopeless(answer) && <p className="small quiet">{odds(answer.chance_never, answer.draws)} doughs do not get there in {lasting(answer.horizon_h)}.</p>}
    </section>
  );
}

const band_at = (points: readonly RisePoint[], h: number): RisePoint | undefined =>
  points.reduce<RisePoint | undefined>((best, p) => (best && Math.abs(best.t_h - h) <= Math.abs(p.t_h - h) ? best : p), undefined);
