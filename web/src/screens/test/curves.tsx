// All doughs on one picture: what was seen, and the curve the model laid through it. Each dough has its own dash and its
// name at the end of its line, so that no colour is needed to tell them apart; each day has its own sign for what was seen.
import type { JarRead } from "../../api/test_bakes";
import { date_of } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { plain, useHabits } from "../../say/say";
import "../../parts/chance_map.css";

const wide = 640;
const high = 380;
const edge = { left: 40, right: 215, top: 12, bottom: 34 };
const dashes = ["", "9 4", "2 4", "12 4 2 4", "5 2", "1 6", "16 5", "8 3 2 3 2 3"];
const colours = 4;

/** Eight dashes in each of four colours, so that no two of the first 32 doughs share both. */
export const drawn_as = (dough: number) => ({ colour: dough % colours, dash: dashes[(dough + Math.floor(dough / dashes.length)) % dashes.length] ?? "" });

export function Curves({ jars, within_h }: { jars: readonly JarRead[]; within_h: number }) {
  const habits = useHabits();
  const looks = jars.flatMap((jar) => jar.looks);
  if (looks.length === 0) return null;
  const doughs = [...new Set(jars.map((jar) => jar.dough))];
  const days = [...new Set(jars.map((jar) => jar.day))];
  const last = Math.max(within_h, ...looks.map((l) => l.t_h));
  const top = Math.max(2, ...looks.map((l) => Math.max(l.ratio, l.fitted_ratio ?? 0))) * 1.05;
  const x = (t: number) => edge.left + (t / last) * (wide - edge.left - edge.right);
  const y = (r: number) => high - edge.bottom - ((r - 0.8) / (top - 0.8)) * (high - edge.top - edge.bottom);
  const step = last > 30 ? 12 : last > 14 ? 4 : 2;
  const hours = Array.from({ length: Math.floor(last / step) + 1 }, (_, i) => i * step);
  const marks = [1, 1.5, 2, 2.5, 3, 3.5, 4].filter((r) => r <= top);
  const ends = spread_out(
    doughs.map((dough) => {
      const of = jars.filter((jar) => jar.dough === dough).flatMap((jar) => jar.looks);
      const end = of.reduce((a, b) => (b.t_h > a.t_h ? b : a));
      return y(end.fitted_ratio ?? end.ratio);
    }),
    22,
  );
  return (
    <figure class="curves">
      <svg viewBox={`0 0 ${wide} ${high}`} role="img" aria-label={spoken(jars, habits)}>
        {marks.map((r) => (
          <g key={r}>
            <line class="rule" x1={edge.left} x2={wide - edge.right} y1={y(r)} y2={y(r)} />
            <text x={edge.left - 6} y={y(r) + 4} text-anchor="end">
              {plain(r, Number.isInteger(r) ? 0 : 1, habits)}
            </text>
          </g>
        ))}
        {hours.map((t) => (
          <text key={t} x={x(t)} y={high - edge.bottom + 18} text-anchor="middle">
            {t} h
          </text>
        ))}
        <line class="allowed" x1={x(within_h)} x2={x(within_h)} y1={edge.top} y2={high - edge.bottom} />
        {jars.map((jar, i) => {
          const at = doughs.indexOf(jar.dough);
          const line = jar.looks.filter((l) => l.fitted_ratio !== null).map((l) => `${x(l.t_h)},${y(l.fitted_ratio ?? 1)}`);
          return (
            <g key={i} class={`run run-${drawn_as(at).colour}`}>
              <polyline points={line.join(" ")} stroke-dasharray={drawn_as(at).dash} />
              {jar.looks.map((l, k) => (
                <Seen key={k} x={x(l.t_h)} y={y(l.ratio)} day={days.indexOf(jar.day)} />
              ))}
            </g>
          );
        })}
        {days.length > 1 &&
          days.map((day, i) => (
            <g key={day} class="run">
              <Seen x={wide - edge.right + 19} y={edge.top + 8 + 24 * i} day={i} />
              <text x={wide - edge.right + 40} y={edge.top + 13 + 24 * i}>
                {date_of(day, habits)}
              </text>
            </g>
          ))}
        {doughs.map((dough, i) => (
          <g key={dough} class={`key run-${drawn_as(i).colour}`}>
            <line x1={wide - edge.right + 4} x2={wide - edge.right + 34} y1={ends[i] ?? 0} y2={ends[i] ?? 0} stroke-dasharray={drawn_as(i).dash} />
            <text x={wide - edge.right + 40} y={(ends[i] ?? 0) + 4}>
              {dough}
            </text>
          </g>
        ))}
      </svg>
      <figcaption class="quiet small">
        Times its height at mixing, over hours. {days.length > 1 ? "Signs: seen, each day its own" : "Dots: seen"}; lines: the model through them; the dotted
        upright: the time allowed.
      </figcaption>
    </figure>
  );
}

/** What was seen of a jar: on the first day a dot, then a ring, a square, an open square, and so on. */
function Seen({ x, y, day }: { x: number; y: number; day: number }) {
  const open = day % 2 === 1 ? "open" : "";
  if (day % 4 < 2) return <circle class={open} cx={x} cy={y} r="4" />;
  return <rect class={open} x={x - 3.5} y={y - 3.5} width="7" height="7" />;
}

/** Moves names apart that would lie over each other, keeping their order. */
export function spread_out(places: readonly number[], apart: number): number[] {
  const order = places.map((at, i) => ({ at, i })).sort((a, b) => a.at - b.at);
  for (let k = 1; k < order.length; ++k) {
    const before = order[k - 1];
    const here = order[k];
    if (before && here && here.at - before.at < apart) here.at = before.at + apart;
  }
  const out = [...places];
  for (const { at, i } of order) out[i] = at;
  return out;
}

function spoken(jars: readonly JarRead[], habits: Habits): string {
  return jars
    .map((jar) => {
      const top = Math.max(...jar.looks.map((l) => l.ratio));
      return `${jar.dough} on ${date_of(jar.day, habits)}: ${jar.looks.length} heights, at most ${plain(top, 1, habits)} times.`;
    })
    .join(" ");
}
