// The day as rows over one clock: each pair of hands and each place of the house, and which bread has it when.
import type { DayAnswer } from "../../api/types";
import { marks_between } from "../../parts/ruler";
import { after, exact_moment, from_utc, hour_of_day, hours_between, now, short_forecast, type Moment } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { useHabits } from "../../say/say";
import { type Dragged, useDrag } from "./drag";
import { type Lane, lanes_of } from "./lanes";

const line_high = 34;
const bar_high = 13;
const gutter = 76;
const letters = "ABCDEFGHIJKLMNOPQRST";
const least_apart = 3.5;
const looks = 5;
/** Of now before the first step, to be in the picture. */
const longest_wait_h = 12;
const most_marks = 5;
const steps = [1, 2, 3, 4, 6, 12, 24, 48];

interface Moving {
  move: (bake: string, step: string, to: Moment) => void;
  open: (bake: string, step: string) => void;
}

export function DayPicture({ answer, move, open }: { answer: DayAnswer } & Moving) {
  const habits = useHabits();
  const drag = useDrag(answer, { move, open });
  const lanes = answer.held.flatMap(lanes_of);
  const bakes = answer.each.map((one) => one.bake);
  const first = from_utc(answer.steps[0]?.begins ?? answer.begins) ?? now();
  const wait_h = hours_between(now(), first);
  const from = wait_h > 0 && wait_h < longest_wait_h ? now() : first;
  const to = from_utc(answer.bread) ?? now();
  const long_h = hours_between(from, to);
  const place = (at: Moment) => (100 * hours_between(from, at)) / long_h;
  const here = place(now());
  const high = lanes.length * line_high;
  return (
    <figure class="day-picture">
      <div class="rows">
        <ul class="bare" aria-hidden="true" style={{ width: `${gutter}px` }}>
          {lanes.map((lane, i) => (
            <li key={`${lane.name} ${i}`} style={{ height: `${line_high}px` }}>
              {lane.name}
            </li>
          ))}
        </ul>
        <svg width="100%" height={high} role="img" aria-label={picture_words(lanes, from, to, habits)} {...drag.on(long_h)}>
          <Looks />
          {lanes.map((lane, i) => (
            <Bars key={`${lane.name} ${i}`} lane={lane} top={i * line_high} bakes={bakes} place={place} dragged={drag.dragged} />
          ))}
          {drag.dragged && <line class="dragged" x1={`${place(drag.dragged.to)}%`} x2={`${place(drag.dragged.to)}%`} y1={0} y2={high} />}
          {here >= 0 && here <= 100 && <line class="now" x1={`${here}%`} x2={`${here}%`} y1={0} y2={high} />}
        </svg>
      </div>
      <Hours from={from} long_h={long_h} habits={habits} />
      <p class="small no-print" aria-hidden="true">
        {drag.dragged ? `${drag.dragged.step}: ${drag.dragged.bake} to ${exact_moment(drag.dragged.to, habits)}` : <span class="quiet">Drag a bar to another hour, or tap a step.</span>}
      </p>
      <figcaption class="stack tight small">
        <ul class="bare day-key">
          {bakes.map((bake, b) => (
            <li key={bake}>
              <svg width="34" height="16" aria-hidden="true">
                <rect class={`bar look-${b % looks}`} x="1" y="1" width="32" height="14" />
              </svg>
              <strong>{letters[b]}</strong> {bake}
            </li>
          ))}
        </ul>
        <span class="quiet">{here >= 0 && here <= 100 ? "The upright line: now. " : ""}A bar: taken, from when until when.</span>
      </figcaption>
    </figure>
  );
}

const at = (text: string) => from_utc(text) ?? now();

function Bars({ lane, top, bakes, place, dragged }: { lane: Lane; top: number; bakes: readonly string[]; place: (at: Moment) => number; dragged: Dragged | undefined }) {
  const base = top + line_high - 2;
  let last = -100;
  return (
    <g>
      <line class="base" x1="0" x2="100%" y1={base} y2={base} />
      {lane.bars.map((bar) => {
        const b = Math.max(0, bakes.indexOf(bar.bake));
        const x = place(at(bar.from));
        const letter = x - last >= least_apart && x < 98;
        if (letter) last = x;
        return (
          <g key={`${bar.bake} ${bar.step} ${bar.from}`} class={dragged?.bake === bar.bake && dragged.step === bar.step ? "is-dragged" : ""}>
            <rect class={`bar look-${b % looks}`} data-bake={bar.bake} data-step={bar.step} x={`${x}%`} width={`${Math.max(0.8, place(at(bar.to)) - x)}%`} y={base - bar_high} height={bar_high} />
            {letter && (
              <text x={`${x}%`} y={base - bar_high - 4}>
                {letters[b]}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** What tells one bread's bars from another's, on paper too. */
function Looks() {
  return (
    <defs>
      <pattern id="day-look-2" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect class="ground" width="6" height="6" />
        <line class="stroke" x1="0" x2="0" y1="0" y2="6" />
      </pattern>
      <pattern id="day-look-4" width="6" height="6" patternUnits="userSpaceOnUse">
        <rect class="ground" width="6" height="6" />
        <circle class="dot" cx="3" cy="3" r="1.6" />
      </pattern>
    </defs>
  );
}

/** Midnight by the day that begins; the others by the clock, the first and a new day with their day. */
function mark_words(mark: Moment, before: Moment, is_first: boolean, habits: Habits): string {
  const words = exact_moment(mark, habits);
  if (hour_of_day(mark) === 0) return words.slice(0, words.indexOf(" "));
  return is_first ? words : short_forecast(mark, before, habits);
}

function Hours({ from, long_h, habits }: { from: Moment; long_h: number; habits: Habits }) {
  const step = steps.find((s) => long_h / s <= most_marks) ?? 48;
  const marks = marks_between(0, long_h, step, from);
  return (
    <div class="day-picture-hours" aria-hidden="true" style={{ marginInlineStart: `${gutter}px` }}>
      {marks.map((h, i) => (
        <span key={h} style={{ left: `${(100 * h) / long_h}%` }} class={h / long_h > 0.93 ? "last" : h / long_h < 0.07 ? "first" : ""}>
          {mark_words(after(from, h), after(from, marks[i - 1] ?? 0), i === 0, habits)}
        </span>
      ))}
    </div>
  );
}

function picture_words(lanes: readonly Lane[], from: Moment, to: Moment, habits: Habits): string {
  const taken = lanes.map((lane) => `${lane.name}: taken ${lane.bars.length} times`).join("; ");
  return `From ${exact_moment(from, habits)} to ${exact_moment(to, habits)}. ${taken}. The same stands in the list by the clock.`;
}
