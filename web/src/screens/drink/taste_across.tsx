// Taste and rise over the share of the drink: two curves and the corridor in which both hold.
import type { TasteAcrossAnswer } from "../../api/types";
import { lasting, odds, percent, useHabits } from "../../say/say";
import type { Habits } from "../../say/habits";
import { useAsked } from "../../state/asked";
import type { Form } from "../../state/bake";

interface Asked {
  bake: Form;
  culture_id?: string;
}

const draws = 100;
const wide = 640;
const high = 300;
const edge = { left: 92, right: 16, top: 12, bottom: 50 };
const w = wide - edge.left - edge.right;
const h = high - edge.top - edge.bottom;
const x = (share: number) => edge.left + share * w;
const y = (chance: number) => edge.top + (1 - chance) * h;

export function TasteAcross({ asked, within_h }: { asked: Asked; within_h: number }) {
  const habits = useHabits();
  const { answer } = useAsked<TasteAcrossAnswer>("/api/taste-across", { ...asked, within_h, draws });
  if (!answer) return null;
  return (
    <>
      <h3>Taste and rise</h3>
      <Picture answer={answer} habits={habits} />
    </>
  );
}

const corridor_words = (answer: TasteAcrossAnswer, habits: Habits) =>
  answer.from === null || answer.to === null
    ? `Nowhere do both hold: ${odds(answer.wanted_chance, 1000)} doughs ready within ${lasting(answer.within_h)} and ${odds(answer.wanted_noticed, 1000)} tasters.`
    : `Both hold from ${percent(answer.from, habits)} to ${percent(answer.to, habits)} of the liquid: ${odds(answer.wanted_chance, 1000)} doughs ready in time, ${odds(answer.wanted_noticed, 1000)} tasters notice it.`;

function Picture({ answer, habits }: { answer: TasteAcrossAnswer; habits: Habits }) {
  const path = (of: "ready" | "noticed") => answer.points.map((point) => `${x(point.share)},${y(point[of])}`).join(" ");
  const words = corridor_words(answer, habits);
  return (
    <figure class="across" data-testid="across">
      <svg viewBox={`0 0 ${wide} ${high}`} role="img" aria-label={`Chance to be ready and tasters who notice, over the share of ${answer.drink}. ${words}`}>
        {answer.from !== null && answer.to !== null && (
          <rect class="corridor" x={x(answer.from)} y={edge.top} width={Math.max(2, x(answer.to) - x(answer.from))} height={h} />
        )}
        <rect class="frame" x={edge.left} y={edge.top} width={w} height={h} />
        <polyline class="ready" points={path("ready")} />
        <polyline class="noticed" points={path("noticed")} />
        <line class="here" x1={x(answer.share_now)} x2={x(answer.share_now)} y1={edge.top} y2={edge.top + h} />
        {[0, 0.5, 1].map((value) => (
          <text key={`x${value}`} x={x(value)} y={high - edge.bottom + 22} text-anchor={value === 1 ? "end" : "middle"}>
            {percent(value, habits)}
          </text>
        ))}
        {[0, 0.5, 1].map((value) => (
          <text key={`y${value}`} x={edge.left - 8} y={y(value) + 6} text-anchor="end">
            {percent(value, habits)}
          </text>
        ))}
        <text x={edge.left + w / 2} y={high - 6} text-anchor="middle">
          {answer.drink} in the liquid
        </text>
      </svg>
      <figcaption class="quiet small">
        <span class="key ready-key" /> ready within {lasting(answer.within_h)} · <span class="key noticed-key" /> tasters who notice it · dashed: this bake. {words}
      </figcaption>
    </figure>
  );
}
