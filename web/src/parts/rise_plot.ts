// The part of the rise curve that needs uPlot; loaded when a curve is first shown.
import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import type { Habits } from "../say/habits";
import { type Moment, hour_of_day } from "../say/clock";
import { plain } from "../say/say";
import type { RiseRun } from "./rise_run";

interface Drawn {
  runs: readonly RiseRun[];
  goal_ratio?: number | undefined;
  now_h?: number | undefined;
  mixed: Moment | undefined;
  habits: Habits;
  size: { width: number; height: number };
  colours: Record<"ink" | "quiet" | "line" | "reed" | "rust" | "deep", string>;
  dashes: readonly number[][];
  ring: (run: number, runs: number) => { ink: "ink" | "rust"; filled: boolean };
  hour_name: (h: number, mixed: Moment | undefined, habits: Habits) => string;
}

const hour_steps = [1, 2, 3, 4, 6, 12, 24];

/** All runs and readings on one axis of hours. */
function columns(runs: readonly RiseRun[]): (number | null)[][] {
  const hours = [...new Set(runs.flatMap((r) => [...r.points.map((p) => p.t_h), ...(r.readings ?? []).map((p) => p.t_h)]))];
  hours.sort((a, b) => a - b);
  const place = new Map(hours.map((h, i) => [h, i]));
  const column = (points: readonly { t_h: number }[], value: (i: number) => number) => {
    const out: (number | null)[] = new Array<null>(hours.length).fill(null);
    points.forEach((p, i) => (out[place.get(p.t_h) as number] = value(i)));
    return out;
  };
  const series = runs.flatMap((run) => [
    column(run.points, (i) => run.points[i]?.p10_ratio ?? 0),
    column(run.points, (i) => run.points[i]?.p90_ratio ?? 0),
    column(run.points, (i) => run.points[i]?.p50_ratio ?? 0),
    column(run.readings ?? [], (i) => run.readings?.[i]?.ratio ?? 0),
  ]);
  return [hours, ...series];
}

export function draw(node: HTMLElement, shown: Drawn): uPlot {
  const { runs, colours, habits, mixed } = shown;
  const font = `13px ${getComputedStyle(node).fontFamily}`;
  const series: uPlot.Series[] = [{}];
  const bands: uPlot.Band[] = [];
  runs.forEach((_, i) => {
    const first = series.length;
    const { ink, filled } = shown.ring(i, runs.length);
    const edge = (): uPlot.Series => ({ stroke: "transparent", spanGaps: true, points: { show: false } });
    series.push(
      edge(),
      edge(),
      { stroke: i === 0 ? colours.rust : colours.ink, width: 3, spanGaps: true, points: { show: false }, dash: shown.dashes[i] ?? [] },
      { stroke: colours.ink, width: 0, paths: () => null, points: { show: true, size: 11, width: 3, stroke: colours[ink], fill: filled ? colours[ink] : "transparent" } },
    );
    bands.push({ series: [first + 1, first], fill: i === 0 ? colours.reed : `${colours.deep}55` });
  });
  const axis = { stroke: colours.quiet, font, ticks: { stroke: colours.line }, grid: { stroke: colours.line, width: 1 } };
  const shift = mixed === undefined ? 0 : hour_of_day(mixed);
  return new uPlot(
    {
      ...shown.size,
      legend: { show: false },
      cursor: { show: false },
      scales: { x: { time: false }, y: { range: (_u, _min, max) => [0.9, Math.max(max, shown.goal_ratio ?? 0) * 1.08] } },
      axes: [
        {
          ...axis,
          space: 80,
          splits: (_u, _i, min, max) => {
            const step = hour_steps.find((s) => (max - min) / s <= shown.size.width / 105) ?? 24;
            const out: number[] = [];
            for (let h = Math.ceil((min + shift) / step) * step - shift; h <= max; h += step) out.push(h);
            return out;
          },
          values: (_u, splits) => splits.map((h) => shown.hour_name(h, mixed, habits)),
        },
        { ...axis, size: 46, values: (_u, splits) => splits.map((v) => `${plain(v, Number.isInteger(v) ? 0 : 1, habits)}×`) },
      ],
      series,
      bands,
      hooks: { draw: [(plot) => lines(plot, shown)] },
    },
    columns(runs) as uPlot.AlignedData,
    node,
  );
}

/** The mark to reach, and now. */
function lines(plot: uPlot, { goal_ratio, now_h, colours }: Drawn): void {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.lineWidth = 2 * devicePixelRatio;
  if (goal_ratio !== undefined) {
    const y = plot.valToPos(goal_ratio, "y", true);
    ctx.strokeStyle = colours.rust;
    ctx.setLineDash([2 * devicePixelRatio, 6 * devicePixelRatio]);
    ctx.beginPath();
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
  }
  if (now_h !== undefined) {
    const x = plot.valToPos(now_h, "x", true);
    if (x >= bbox.left && x <= bbox.left + bbox.width) {
      ctx.strokeStyle = colours.ink;
      ctx.setLineDash([2 * devicePixelRatio, 4 * devicePixelRatio]);
      ctx.beginPath();
      ctx.moveTo(x, bbox.top);
      ctx.lineTo(x, bbox.top + bbox.height);
      ctx.stroke();
    }
  }
  ctx.restore();
}
