// The ready window on a ruler of hours: where four of five doughs like this one are ready, where most are, when to look
// again, and where they are past their best. The picture is said in words too, for those who do not see it.
import type { ForeseeAnswer } from "../api/types";
import type { Habits } from "../say/habits";
import { type Moment, after, exact_moment, forecast_moment, hour_of_day, hours_between, short_forecast } from "../say/clock";
import { hours, odds, span, times, warmth } from "../say/say";

export type Forecast = Pick<
  ForeseeAnswer,
  "ready" | "past_its_best" | "look_again_h" | "chance_never" | "draws" | "horizon_h" | "target_volume_ratio" | "temperature_C"
> &
  Partial<Pick<ForeseeAnswer, "limit" | "why_never">>;

interface Shown {
  forecast: Forecast;
  mixed: Moment | undefined;
  now?: Moment | undefined;
  habits: Habits;
}

/** A moment of a forecast in words: on the clock when the mixing has a time, else hours after mixing. The mixing itself is known to the minute. */
export function when(h: number, mixed: Moment | undefined, habits: Habits): string {
  if (mixed === undefined) return `${span(hours(h))} after mixing`;
  return h === 0 ? exact_moment(mixed, habits) : forecast_moment(after(mixed, h), habits);
}

/** The name of a mark: with its weekday when the mark before it, or the mixing, stands on another day. */
function mark_name(h: number, before: number | undefined, mixed: Moment | undefined, habits: Habits): string {
  if (mixed === undefined) return h === 0 ? "mixed" : span(hours(h));
  return short_forecast(after(mixed, h), before === undefined ? mixed : after(mixed, before), habits);
}

/** More than half of the doughs never get there: then there is no most likely hour to give. */
export const hopeless = (forecast: Forecast) => forecast.ready.p50_h === null || forecast.chance_never > 0.5;

/** When it is ready, and how far it has risen then. */
function ready_words({ forecast, mixed, habits }: Shown): { at: string; what: string } {
  const { p50_h } = forecast.ready;
  const goal = `${times(forecast.target_volume_ratio, habits)}, ${warmth(forecast.temperature_C, habits)}`;
  if (hopeless(forecast) || p50_h === null)
    return { at: capital(forecast.why_never?.in_place_of_ready ?? `not within ${span(hours(forecast.horizon_h))}`), what: goal };
  return { at: when(p50_h, mixed, habits), what: `most likely · ${goal}` };
}

export function ReadyLine(shown: Shown) {
  const { at, what } = ready_words(shown);
  return (
    <div class="ready-line">
      <span class="when" data-testid="ready">
        {at}
      </span>
      <span>{what}</span>
    </div>
  );
}

/** The same in one line, for a sheet or a picture: "Ready Sat 15:30 most likely · doubled, 24 °C · likely between 12:30 and 19:45". */
export function ready_line(shown: Shown): string {
  const { at, what } = ready_words(shown);
  const [window] = window_words(shown);
  return `${hopeless(shown.forecast) ? "" : "Ready "}${at} ${what}${window ? ` · ${window.what} ${window.says}` : ""}`;
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

/** What it can hold, which of three ends it, what mends it. */
function why_words({ limit, why_never }: Forecast): { what: string; says: string }[] {
  const lines: { what: string; says: string }[] = [];
  if (why_never) {
    lines.push({ what: "why", says: why_never.words });
    if (why_never.change) lines.push({ what: "mended by", says: why_never.change.words });
  }
  if (limit && limit.words !== "") lines.push({ what: "limit", says: limit.words });
  return lines;
}

/** The end of a range, with its weekday only where it is another than at its beginning. */
function until(from_h: number, to_h: number | null, { horizon_h }: Forecast, mixed: Moment | undefined, habits: Habits): string {
  if (to_h === null) return `later than ${span(hours(horizon_h))}`;
  return mixed === undefined ? when(to_h, mixed, habits) : short_forecast(after(mixed, to_h), after(mixed, from_h), habits);
}

/** What the window says, as lines of text. */
export function window_words({ forecast, mixed, now, habits }: Shown): { what: string; says: string }[] {
  const { p10_h, p90_h } = forecast.ready;
  const lines: { what: string; says: string }[] = [];
  const never = forecast.chance_never;
  if (hopeless(forecast)) {
    lines.push({ what: "gets there in time", says: `${odds(1 - never, forecast.draws)} doughs like this one` });
    if (p10_h !== null) lines.push({ what: "the first of them", says: `about ${when(p10_h, mixed, habits)}` });
    return [...lines, ...why_words(forecast)];
  }
  if (p10_h !== null) {
    const first = mixed === undefined && p90_h !== null ? span(hours(p10_h)) : when(p10_h, mixed, habits);
    lines.push({ what: "likely between", says: `${first} and ${until(p10_h, p90_h, forecast, mixed, habits)}` });
  }
  if (forecast.look_again_h !== null) {
    // A look that was due is due now.
    const due = mixed !== undefined && now !== undefined && hours_between(mixed, now) > forecast.look_again_h;
    lines.push({ what: "look again", says: due ? "now" : when(forecast.look_again_h, mixed, habits) });
  }
  const past = forecast.past_its_best.p50_h;
  if (past !== null) lines.push({ what: "past its best", says: `after ${when(past, mixed, habits)}` });
  lines.push({ what: "not ready", says: `${odds(never, forecast.draws)} doughs within ${span(hours(forecast.horizon_h))}` });
  return [...lines, ...why_words(forecast)];
}

/** The window in words: all of it, the window alone, or what comes beside it. */
export function WindowWords(props: Shown & { only?: "window" | "more" }) {
  const all = window_words(props);
  const shown = props.only === "window" ? all.slice(0, 1) : props.only === "more" ? all.slice(1) : all;
  return (
    <dl class="between">
      {shown.map(({ what, says }) => [<dt key={what}>{what}</dt>, <dd key={`${what}.`}>{says}</dd>])}
    </dl>
  );
}

const steps = [0.25, 0.5, 1, 2, 3, 4, 6, 12, 24, 48];

/** The hours between which the ruler runs, and how far apart its marks are. */
export function ruler_range(forecast: Forecast, now_h?: number): { from: number; to: number; step: number } {
  const { p10_h, p50_h, p90_h, p95_h } = forecast.ready;
  const last = p90_h ?? (p50_h === null ? forecast.horizon_h : Math.min(forecast.horizon_h, p50_h * 2.2));
  const past = forecast.past_its_best.p50_h ?? 0;
  const to = Math.min(
    forecast.horizon_h,
    Math.max(last * 1.08, Math.min(p95_h ?? last, last * 1.3), Math.min(past * 1.1, last * 1.3), (now_h ?? 0) * 1.05, 1),
  );
  const from = now_h !== undefined && now_h > 0 ? Math.max(0, Math.min(now_h, p10_h ?? now_h) - 0.08 * to) : 0;
  const step = steps.find((s) => (to - from) / s <= 3.6) ?? 48;
  return { from, to, step };
}

export function Ruler(props: Shown) {
  const { forecast, mixed, habits } = props;
  const now_h = props.now !== undefined && mixed !== undefined ? hours_between(mixed, props.now) : undefined;
  const { from, to, step } = ruler_range(forecast, now_h);
  const at = (h: number) => `${Math.min(100, Math.max(0, (100 * (h - from)) / (to - from)))}%`;
  const between = (a: number, b: number) => ({ left: at(a), right: `calc(100% - ${at(b)})` });
  const { p05_h, p10_h, p50_h, p90_h, p95_h } = forecast.ready;
  const past = forecast.past_its_best.p50_h;
  const marks = marks_between(from, to, step, mixed);
  const words = window_words(props).map(({ what, says }) => `${what}: ${says}`).join("; ");
  return (
    <div class="ruler" role="img" aria-label={`Ready window. ${words}`}>
      <div class="bed">
        {p05_h !== null && <i class="outer" style={between(p05_h, p95_h ?? to)} />}
        {past !== null && past < to && <i class="past" style={between(past, to)} />}
        {p10_h !== null && (
          <i class={p90_h === null ? "window open-end" : "window"} style={between(p10_h, p90_h ?? to)} />
        )}
        {p50_h !== null && !hopeless(forecast) && <i class="middle" style={{ left: at(p50_h) }} />}
        {now_h !== undefined && now_h >= from && now_h <= to && (
          <i class={(now_h - from) / (to - from) > 0.85 ? "now at-end" : "now"} style={{ left: at(now_h) }}>
            <span>now</span>
          </i>
        )}
      </div>
      <div class="scale">
        {marks.map((h, i) => (
          <span
            key={h}
            style={{ left: at(h) }}
            class={(h - from) / (to - from) < 0.06 ? "first" : i === marks.length - 1 && (h - from) / (to - from) > 0.94 ? "last" : ""}
          >
            {mark_name(h, marks[i - 1], mixed, habits)}
          </span>
        ))}
      </div>
    </div>
  );
}

/** Marks at full steps of the clock, or of hours after mixing when the bake has no time. */
export function marks_between(from: number, to: number, step: number, mixed: Moment | undefined): number[] {
  const shift = mixed === undefined ? 0 : hour_of_day(mixed) % step;
  const marks: number[] = [];
  for (let h = Math.ceil((from + shift) / step) * step - shift; h <= to; h += step) marks.push(h);
  return marks;
}
