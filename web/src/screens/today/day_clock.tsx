// One clock for everything alive: a row for each dough and levain, the same hours below all of them, now at the left.
import type { Today } from "../../api/types";
import { marks_between } from "../../parts/ruler";
import { after, exact_moment, from_utc, hours_between, short_forecast, type Moment } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { link } from "../../shell/router";

export interface Alive {
  key: string;
  title: string;
  to: string;
  next: string;
  next_at: Moment | undefined;
  first: Moment | undefined;
  middle: Moment | undefined;
  last: Moment | undefined;
}

const moment = (text: string | null | undefined) => (text ? from_utc(text) : undefined);

/** Doughs and levains alike, the next to do first. */
export function all_alive(today: Today): Alive[] {
  const doughs = today.doughs.map((d) => ({
    key: d.bake, title: d.title, to: link("bake", d.bake, "read"), next: d.next, next_at: moment(d.next_at),
    first: moment(d.ready_p10_at), middle: moment(d.ready_p50_at), last: moment(d.ready_p90_at),
  }));
  const levains = today.levains.map((l) => ({
    key: l.culture, title: l.title, to: link("culture", l.culture), next: l.next, next_at: moment(l.next_at),
    first: moment(l.peak_p10_at), middle: moment(l.peak_at), last: moment(l.peak_p90_at),
  }));
  return [...doughs, ...levains].sort((a, b) => (a.next_at ?? Number.MAX_VALUE) - (b.next_at ?? Number.MAX_VALUE));
}

const at_once_h = 0.5;

/** Who wants you at about the same time, in words. */
export function overlaps(alive: readonly Alive[], now: Moment, habits: Habits): string[] {
  const coming = alive.filter((a) => a.next_at !== undefined && a.next_at > now);
  const out: string[] = [];
  for (let i = 0; i < coming.length; ) {
    const from = coming[i]?.next_at as Moment;
    const together = coming.slice(i).filter((a) => hours_between(from, a.next_at as Moment) <= at_once_h);
    if (together.length > 1) out.push(`${listed(together.map((a) => a.title))} want you at about the same time, from ${exact_moment(from, habits)}.`);
    i += together.length;
  }
  return out;
}

const listed = (names: readonly string[]) => `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`;

const longest_h = 30;
const steps = [1, 2, 3, 4, 6, 12];

// Shares of the line on a phone: what "now" takes, and half of "06:00" or of "Mon 06:00".
const of_now = 0.12;
const half_a_label = (says: string) => (says.length > 6 ? 0.17 : 0.09);

/** The hours below the line that have room beside "now" and one another; the day once, where it begins. */
export function labelled(marks: readonly number[], to_h: number, at: Moment, habits: Habits): { h: number; says: string }[] {
  const out: { h: number; says: string }[] = [];
  let taken = of_now;
  for (const h of marks) {
    const last = out.at(-1);
    const says = short_forecast(after(at, h), last === undefined ? at : after(at, last.h), habits);
    if (h / to_h - half_a_label(says) < taken) continue;
    taken = h / to_h + half_a_label(says);
    out.push({ h, says });
  }
  return out;
}

export function DayClock({ alive, at, habits }: { alive: readonly Alive[]; at: Moment; habits: Habits }) {
  const ends = alive.flatMap((a) => [a.next_at, a.last ?? a.middle]).filter((m) => m !== undefined);
  const to_h = Math.min(longest_h, Math.max(6, ...ends.map((m) => hours_between(at, m) * 1.06)));
  const place = (h: number) => `${Math.min(100, Math.max(0, (100 * h) / to_h))}%`;
  const of = (m: Moment) => place(hours_between(at, m));
  const step = steps.find((s) => to_h / s <= 4) ?? 12;
  const marks = marks_between(0, to_h, step, at);
  return (
    <figure class="day-clock" aria-label="One clock for all: the same hours for each">
      <ul class="bare">
        {alive.map((a) => (
          <li key={a.key}>
            <a href={a.to}>{a.title}</a>
            <div class="day-line" aria-hidden="true">
              {a.first !== undefined && hours_between(at, a.first) < to_h && (a.last ?? a.middle ?? at) > at && (
                <i class="window" style={{ left: of(a.first), right: `calc(100% - ${a.last === undefined ? "100%" : of(a.last)})` }} />
              )}
              {a.middle !== undefined && a.middle > at && hours_between(at, a.middle) < to_h && <i class="middle" style={{ left: of(a.middle) }} />}
              {a.next_at !== undefined && hours_between(at, a.next_at) < to_h && <i class="do" style={{ left: a.next_at < at ? "0%" : of(a.next_at) }} />}
            </div>
            <span class="to-do small">
              {a.next_at !== undefined && <strong class="figure">{a.next_at <= at ? "now" : exact_moment(a.next_at, habits)}</strong>} {a.next}
            </span>
          </li>
        ))}
      </ul>
      <div class="day-hours" aria-hidden="true">
        <span style={{ left: "0" }} class="first">
          now
        </span>
        {labelled(marks, to_h, at, habits).map(({ h, says }) => (
          <span key={h} style={{ left: place(h) }} class={h / to_h > 0.93 ? "last" : ""}>
            {says}
          </span>
        ))}
      </div>
      <figcaption class="quiet small">Dot: the next thing to do. Block: when it is likely ready or at its peak; the stroke in it: most likely.</figcaption>
    </figure>
  );
}
