// Reading a dough with one thumb: slide or type how high it stands in its jar; the ready window moves and narrows.
import { useEffect, useMemo, useState } from "preact/hooks";
import { type Bake, mixed_of } from "../../api/bakes";
import type { Outlook, ReadingRecordChange, ReadingRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { remove, words_of } from "../../api/ask";
import { BakeFrame } from "../../parts/bake_frame";
import { Failed, Waiting } from "../../parts/states";
import { Jar } from "../../parts/jar";
import { ReadyLine, Ruler, WindowWords, hopeless, when } from "../../parts/ruler";
import { Begun } from "../../parts/begun";
import { Rise, type RisePoint, worth_seeing } from "../../parts/rise";
import { StageMarks } from "../../parts/stage_marks";
import { InTheWay } from "../../parts/way";
import { Field, Figure } from "../../parts/field";
import { type Moment, exact_moment, from_utc, hours_between, moment_of, now, to_utc } from "../../say/clock";
import { lasting, odds, plain, span, times, useHabits, hours } from "../../say/say";
import * as typed from "../../say/typed";
import { in_time, ratios, start_height } from "../../state/readings";
import { outbox, type Waiting as WaitingReading } from "../../state/outbox";
import type { Params } from "../../shell/places";
import { type SeenForecast, useSeen } from "./seen";
import "./read.css";

export default function ReadScreen({ params }: { params: Params }) {
  return (
    <BakeFrame id={params.id ?? ""} here="Read">
      {(record) => <Read key={record.id} record={record} />}
    </BakeFrame>
  );
}

type Known = ReadingRecordChange & { id: string; on_the_way?: boolean };

/** Readings of the server and those still on their way, oldest first. */
function useReadings(id: string): { all: Known[]; error: unknown; again: () => void; there: boolean } {
  const held = useAnswer<ReadingRecordList>(`/api/readings?owner=${id}&limit=500`, ["reading"]);
  const [waiting, set_waiting] = useState<readonly WaitingReading[]>([]);
  useEffect(() => {
    let stop: (() => void) | undefined;
    void outbox().then((box) => (stop = box.waiting.subscribe(set_waiting)));
    return () => stop?.();
  }, []);
  const all = useMemo(() => {
    const sent = held.answer?.readings ?? [];
    const ids = new Set(sent.map((r) => r.id));
    const on_the_way = waiting.filter((w) => w.reading.bake === id && !ids.has(w.reading.id)).map((w) => ({ ...w.reading, on_the_way: true }));
    return in_time<Known>([...sent, ...on_the_way]);
  }, [held.answer, waiting, id]);
  return { all, error: held.error, again: held.again, there: held.answer !== undefined };
}

const usual_start_mm = 40;

function Read({ record }: { record: Bake }) {
  const habits = useHabits();
  const { all, there, error } = useReadings(record.id);
  const mixed = mixed_of(record, record.form);
  const complete = all.map((r) => ({ at: r.at, height_mm: r.height_mm ?? null, ratio: r.ratio ?? null }));
  const start = start_height(complete);
  const [height, set_height] = useState<number | undefined>(undefined);
  const seen = useSeen(record, there || error ? all : undefined, start === undefined ? undefined : height, mixed);
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
        <NoteReading record={record} start={start} height={shown_mm} set_height={set_height} mixed={mixed} touched={height !== undefined} />
      </div>
      <div class="rest stack">
        {answer && <WindowWords forecast={answer} mixed={mixed} now={now()} habits={habits} only="more" />}
        <Begun culture={seen.culture} />
        {seen.outlook && <Good outlook={seen.outlook} mixed={mixed} />}
        {seen.taught.length > 0 && <Lines title="What your readings say" lines={seen.taught} />}
        {seen.doubts.length > 0 && <Lines title="Look twice" lines={seen.doubts} />}
        {seen.recipe && <InTheWay answer={seen.recipe} mixed={mixed} habits={habits} />}
        {answer && (
          <section class="stack tight" aria-labelledby="rise">
            <h2 id="rise">The rise</h2>
            <Rise runs={runs} goal_ratio={answer.target_volume_ratio} now_h={now_h} mixed={mixed} habits={habits} />
          </section>
        )}
        <StageMarks record={record} />
        <List readings={all} mixed={mixed} start={start} />
        {mixed !== undefined && (
          <p>
            <a class="button" href={`/api/bakes/${record.id}/calendar.ics`} download={`${record.title}.ics`}>
              Calendar file with alarms
            </a>
          </p>
        )}
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
          {best_at_h !== null && `, most surely at ${when(best_at_h, mixed, habits)}`}
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

function Lines({ title, lines }: { title: string; lines: readonly string[] }) {
  return (
    <section class="stack tight">
      <h2>{title}</h2>
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

function NoteReading(props: {
  record: Bake;
  start: number | undefined;
  height: number;
  set_height: (mm: number | undefined) => void;
  mixed: Moment | undefined;
  touched: boolean;
}) {
  const { record, start, height, set_height, mixed } = props;
  const habits = useHabits();
  const [said, set_said] = useState("");
  const [at, set_at] = useState("");
  const [more, set_more] = useState<Pick<ReadingRecordChange, "sample_C" | "bulk_C" | "room_C" | "ph" | "remark">>({});
  const at_start = start === undefined;
  const note = async () => {
    const moment = moment_of(at) ?? (at_start && mixed !== undefined ? mixed : now());
    try {
      await (await outbox()).add({ bake: record.id, at: to_utc(moment), height_mm: Math.round(height * 10) / 10, ...more });
      set_said(`Noted: ${plain(height, 0, habits)} mm at ${exact_moment(moment, habits)}.`);
      set_height(undefined);
      set_at("");
      set_more({});
    } catch (error) {
      set_said(words_of(error));
    }
  };
  const high = Math.max(140, Math.ceil((start ?? 40) * 3.5));
  const step = (by: number) => set_height(Math.min(high, Math.max(1, Math.round(height) + by)));
  return (
    <form
      class="note-reading stack tight"
      onSubmit={(event) => {
        event.preventDefault();
        void note();
      }}
    >
      {at_start && <p>First the mark: how high did the dough stand when it was mixed?</p>}
      <div class="steps height">
        <button type="button" class="square" aria-label="One millimetre less" onClick={() => step(-1)}>
          −
        </button>
        <Figure
          label={at_start ? "Height at mixing (mm)" : "Height now (mm)"}
          shown={plain(height, Number.isInteger(height) ? 0 : 1, habits)}
          read={(text) => {
            const read = typed.number(text.replace(/\s*mm$/i, ""));
            return read.ok && (read.value <= 0 || read.value > 1000) ? { ok: false, why: "A height is between 1 and 1000 mm." } : read;
          }}
          give={set_height}
        />
        <button type="button" class="square" aria-label="One millimetre more" onClick={() => step(1)}>
          +
        </button>
      </div>
      <input
        type="range"
        class="thumb"
        aria-label="Slide the height, in millimetres"
        aria-valuetext={`${plain(height, 0, habits)} millimetres${start ? `, ${times(height / start, habits)}` : ""}`}
        min={1}
        max={high}
        step={1}
        value={Math.round(height)}
        onInput={(e) => set_height(Number(e.currentTarget.value))}
      />
      <button type="submit" class="main">
        {at_start ? "Note the mark" : "Note it"}
      </button>
      <p role="status">{said}</p>
      <details>
        <summary>Another time, warmth, pH</summary>
        <div class="pair">
          <Field label="When">
            {(attributes) => <input {...attributes} type="datetime-local" value={at} onInput={(e) => set_at(e.currentTarget.value)} />}
          </Field>
          <OptionalFigure label={`Sample in the jar (°${habits.warmth})`} value={more.sample_C} warm give={(v) => set_more({ ...more, sample_C: v })} />
          <OptionalFigure label={`Bulk (°${habits.warmth})`} value={more.bulk_C} warm give={(v) => set_more({ ...more, bulk_C: v })} />
          <OptionalFigure label={`Room (°${habits.warmth})`} value={more.room_C} warm give={(v) => set_more({ ...more, room_C: v })} />
          <OptionalFigure label="pH" value={more.ph} give={(v) => set_more({ ...more, ph: v })} />
          <Field label="Remark">
            {(attributes) => <input {...attributes} value={more.remark ?? ""} onInput={(e) => set_more({ ...more, remark: e.currentTarget.value })} />}
          </Field>
        </div>
      </details>
    </form>
  );
}

function OptionalFigure(props: { label: string; value: number | null | undefined; warm?: boolean; give: (value: number | null) => void }) {
  const habits = useHabits();
  const shown = props.value === null || props.value === undefined ? "" : plain(props.warm && habits.warmth === "F" ? props.value * 1.8 + 32 : props.value, 1, habits);
  return (
    <Figure<number | null>
      label={props.label}
      shown={shown}
      read={(text) => (text.trim() === "" ? { ok: true, value: null } : props.warm ? typed.warmth(text, habits) : typed.number(text))}
      give={props.give}
    />
  );
}

function List({ readings, mixed, start }: { readings: readonly Known[]; mixed: Moment | undefined; start: number | undefined }) {
  const habits = useHabits();
  const [said, set_said] = useState("");
  if (readings.length === 0) return null;
  const drop = async (reading: Known) => {
    try {
      if (reading.on_the_way) await (await outbox()).forget(reading.id);
      else await remove(`/api/readings/${reading.id}`);
      set_said("Into the trash; it can be taken back for 30 days.");
    } catch (error) {
      set_said(words_of(error));
    }
  };
  return (
    <details>
      <summary>All readings ({readings.length})</summary>
      <p role="status">{said}</p>
      <ul class="bare">
        {[...readings].reverse().map((r) => {
          const at = from_utc(r.at);
          return (
            <li key={r.id} class="entry">
              <span>
                {at === undefined ? r.at : exact_moment(at, habits)}
                {at !== undefined && mixed !== undefined && <span class="quiet"> · {lasting(hours_between(mixed, at))} after mixing</span>}
                {r.height_mm != null && <strong class="figure"> {plain(r.height_mm, 0, habits)} mm</strong>}
                {r.height_mm != null && start !== undefined && <span class="quiet"> {times(r.height_mm / start, habits)}</span>}
                {r.ratio != null && <strong class="figure"> {times(r.ratio, habits)}</strong>}
                {r.ph != null && <span> pH {plain(r.ph, 1, habits)}</span>}
                {r.on_the_way && <span class="quiet"> · kept here, not sent yet</span>}
                {r.remark && <span class="quiet"> · {r.remark}</span>}
              </span>
              <button type="button" class="plain" aria-label={`Throw the reading of ${at === undefined ? r.at : exact_moment(at, habits)} away`} onClick={() => void drop(r)}>
                ✕
              </button>
            </li>
          );
        })}
      </ul>
    </details>
  );
}
