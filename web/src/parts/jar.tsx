// The jar to scale: a straight glass with the mark at mixing, the mark to reach, the dough as it stands and where it is
// expected to stand. Heights in millimetres from the floor of the jar.
import type { Habits } from "../say/habits";
import { plain, times } from "../say/say";

export interface JarShown {
  start_mm: number;
  goal_ratio: number;
  now_mm?: number | undefined;
  expected?: { low_ratio: number; high_ratio: number } | undefined;
  jar_mm: number;
  habits: Habits;
}

// Wider than high: what is written beside the jar stays large enough to read where the picture may not be high.
const across = 110;
const left = 62;
const floor = 184;
const deep = 168;
const apart = 17;

export function Jar({ start_mm, goal_ratio, now_mm, expected, jar_mm, habits }: JarShown) {
  const goal = start_mm * goal_ratio;
  const tall = Math.max(jar_mm, goal * 1.15, (now_mm ?? 0) * 1.05);
  const unit = deep / tall;
  const y = (mm: number) => floor - mm * unit;
  const figure = (mm: number) => `${plain(mm, 0, habits)} mm`;
  const words = [
    `mark at mixing ${figure(start_mm)}`,
    `${times(goal_ratio, habits)} at ${figure(goal)}`,
    ...(now_mm === undefined ? [] : [`dough at ${figure(now_mm)}, ${times(now_mm / start_mm, habits)}`]),
    ...(expected
      ? [`expected now between ${figure(expected.low_ratio * start_mm)} and ${figure(expected.high_ratio * start_mm)}`]
      : []),
  ].join("; ");
  const tick = tall > 160 ? 40 : tall > 80 ? 20 : 10;
  const ticks = Array.from({ length: Math.floor(tall / tick) }, (_, i) => (i + 1) * tick);
  const filled = now_mm ?? start_mm;
  return (
    <svg class="jar" viewBox="0 0 340 198" role="img" aria-label={`Jar to scale: ${words}`}>
      <rect class="dough" x={left - 3} y={y(filled)} width={across + 6} height={filled * unit} rx="6" />
      {expected && (
        <rect
          class="expected"
          x={left + across * 0.72}
          y={y(expected.high_ratio * start_mm)}
          width={across * 0.28}
          height={Math.max(2, (expected.high_ratio - expected.low_ratio) * start_mm * unit)}
        />
      )}
      <path class="glass" d={`M${left - 4} 10 V${floor - 8} q0 10 10 10 H${left + across - 6} q10 0 10 -10 V10`} />
      {ticks.map((mm) => (
        <g key={mm}>
          <line class="mark" x1={left - 4} x2={left + 8} y1={y(mm)} y2={y(mm)} />
          <text class="soft" x={left - 10} y={y(mm) + 5} text-anchor="end">
            {mm}
          </text>
        </g>
      ))}
      <line class="mark" x1={left} x2={left + across + 8} y1={y(start_mm)} y2={y(start_mm)} />
      <text x={left + across + 12} y={y(start_mm) + 5}>
        mixed, {figure(start_mm)}
      </text>
      <line class="goal" x1={left} x2={left + across + 8} y1={y(goal)} y2={y(goal)} />
      <text x={left + across + 12} y={y(goal) + 5}>
        {times(goal_ratio, habits)}, {figure(goal)}
      </text>
      {now_mm !== undefined && <line class="surface" x1={left} x2={left + across} y1={y(now_mm)} y2={y(now_mm)} />}
      {now_mm !== undefined && Math.abs(y(now_mm) - y(goal)) > apart && Math.abs(y(now_mm) - y(start_mm)) > apart && (
        <text x={left + across + 12} y={y(now_mm) + 5}>
          now, {figure(now_mm)}
        </text>
      )}
    </svg>
  );
}
