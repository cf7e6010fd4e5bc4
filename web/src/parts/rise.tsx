// The rise curve: volume against mixing over time, the band of four of five doughs, the middle dough, the readings, the
// mark to reach and now. Drawn by uPlot on a canvas; the same in words and as a table for those who do not see it.
import { useEffect, useRef } from "preact/hooks";
import type uPlot from "uplot";
import type { ForeseeAnswer } from "../api/types";
import type { Habits } from "../say/habits";
import { type Moment, after, exact_moment } from "../say/clock";
import { lasting, plain } from "../say/say";
import { settings } from "../settings/settings";
import { useMedia } from "../state/media";
import type { RisePoint, RiseRun } from "./rise_run";

interface Shown {
  runs: readonly RiseRun[];
  goal_ratio?: number | undefined;
  now_h?: number | undefined;
  mixed: Moment | undefined;
  habits: Habits;
  title?: string;
}

/** The curve as far as it tells something: some hours past the window and past the best. */
export function worth_seeing(forecast: Pick<ForeseeAnswer, "rise" | "ready" | "past_its_best" | "horizon_h">): RisePoint[] {
  const { ready, past_its_best: past, horizon_h } = forecast;
  const last = Math.max(1.15 * (ready.p90_h ?? horizon_h), 1.3 * (past.p50_h ?? 0), 6);
  const until = ready.p50_h === null ? horizon_h : Math.min(horizon_h, Math.max(2 * ready.p50_h, Math.min(last, 4 * ready.p50_h)));
  return forecast.rise.filter((p) => p.t_h <= until);
}

/** "07:00", "Sat 15:00" or "6 h": the name of an hour on the axis. */
function hour_name(h: number, mixed: Moment | undefined, habits: Habits): string {
  return mixed === undefined ? `${Math.round(h * 10) / 10} h` : exact_moment(after(mixed, h), habits);
}

/** What the curve says, in a sentence a run. */
export function rise_words(run: RiseRun, mixed: Moment | undefined, habits: Habits): string {
  const top = run.points.reduce((a, b) => (b.p50_ratio > a.p50_ratio ? b : a), run.points[0] as RisePoint);
  if (!top) return `${run.name}: no curve.`;
  const figure = (r: number) => plain(r, 1, habits);
  const at = mixed === undefined ? `${lasting(top.t_h)} after mixing` : hour_name(top.t_h, mixed, habits);
  return (
    `${run.name}: the middle dough is highest at ${at}, ${figure(top.p50_ratio)} times its volume at mixing; ` +
    `likely it then stands between ${figure(top.p10_ratio)} and ${figure(top.p90_ratio)} times.`
  );
}

function colours(node: Element) {
  const style = getComputedStyle(node);
  const of = (name: string) => style.getPropertyValue(name).trim();
  return { ink: of("--ink"), quiet: of("--quiet"), line: of("--line"), reed: of("--reed"), rust: of("--rust"), deep: of("--reed-deep") };
}

const dashes: readonly number[][] = [[], [8, 5]];

/** How the readings of a run are drawn: a ring, and where there are two runs one of them in each run's own colour, the second filled. */
const ring = (run: number, runs: number) => ({ ink: runs > 1 && run === 0 ? ("rust" as const) : ("ink" as const), filled: run > 0 });

export function Rise(props: Shown) {
  const holder = useRef<HTMLDivElement>(null);
  const { runs, goal_ratio, now_h, mixed, habits } = props;
  const theme = settings.value.theme;
  const dark = useMedia("(prefers-color-scheme: dark)");
  useEffect(() => {
    let plot: uPlot | undefined;
    let gone = false;
    let watch: ResizeObserver | undefined;
    // Where the drawing cannot be fetched, the words and the table below still say it.
    const drawing = import("./rise_plot").catch(() => undefined);
    void drawing.then((module) => {
      if (!module) return;
      const { draw } = module;
      const node = holder.current;
      if (gone || !node || runs.length === 0) return;
      const size = () => ({ width: Math.max(200, node.clientWidth), height: node.clientHeight });
      plot = draw(node, { ...props, size: size(), colours: colours(node), dashes, ring, hour_name });
      watch = new ResizeObserver(() => plot?.setSize(size()));
      watch.observe(node);
    });
    return () => {
      gone = true;
      watch?.disconnect();
      plot?.destroy();
    };
  }, [runs, goal_ratio, now_h, mixed, habits, theme, dark]);
  const words = runs.map((run) => rise_words(run, mixed, habits));
  return (
    <figure class="rise stack tight">
      <div class="plot" ref={holder} role="img" aria-label={`${props.title ?? "Rise curve"}. ${words.join(" ")}`} />
      <figcaption class="stack tight">
        <ul class="bare legend">
          {runs.map((run, i) => (
            <li key={run.name}>
              <svg width="34" height="16" aria-hidden="true">
                <rect x="0" y="2" width="34" height="12" fill="var(--reed)" opacity={i === 0 ? 1 : 0.55} />
                <line x1="0" x2="34" y1="8" y2="8" stroke={i === 0 ? "var(--rust)" : "var(--ink)"} stroke-width="3" stroke-dasharray={(dashes[i] ?? []).join(" ")} />
              </svg>
              {runs.length > 1 ? run.name : "most likely, and the likely range (4 of 5 doughs)"}
            </li>
          ))}
          {runs.map((run, i) => {
            const { ink, filled } = ring(i, runs.length);
            return (
              (run.readings?.length ?? 0) > 0 && (
                <li key={`readings of ${run.name}`}>
                  <svg width="16" height="16" aria-hidden="true">
                    <circle cx="8" cy="8" r="5" fill={filled ? `var(--${ink})` : "none"} stroke={`var(--${ink})`} stroke-width="3" />
                  </svg>
                  {runs.length > 1 ? `read of ${run.name}` : "readings"}
                </li>
              )
            );
          })}
        </ul>
        <details>
          <summary>The curve in words and figures</summary>
          {words.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          {runs.map((run) => (
            <RiseTable key={run.name} run={run} mixed={mixed} habits={habits} />
          ))}
        </details>
      </figcaption>
    </figure>
  );
}

function RiseTable({ run, mixed, habits }: { run: RiseRun; mixed: Moment | undefined; habits: Habits }) {
  const last = run.points[run.points.length - 1]?.t_h ?? 0;
  const step = last > 30 ? 4 : last > 12 ? 2 : 1;
  const rows: RisePoint[] = [];
  let next = 0;
  for (const point of run.points) {
    if (point.t_h >= next - 1e-9) {
      rows.push(point);
      next = point.t_h + step;
    }
  }
  const figure = (r: number) => plain(r, 1, habits);
  return (
    <table>
      <caption class="unseen">{run.name}: volume against mixing</caption>
      <thead>
        <tr>
          <th scope="col">time</th>
          <th scope="col" class="number">middle dough</th>
          <th scope="col" class="number">likely</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((p) => (
          <tr key={p.t_h}>
            <td>{hour_name(p.t_h, mixed, habits)}</td>
            <td class="number">{figure(p.p50_ratio)} times</td>
            <td class="number">
              {figure(p.p10_ratio)} to {figure(p.p90_ratio)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
