// A bar of the day's picture drawn to another hour with a mouse or a pen; a tap opens the step instead. Keys and fingers have the
// list by the clock.
import { useRef, useState } from "preact/hooks";
import type { DayAnswer } from "../../api/types";
import { after, from_utc, type Moment } from "../../say/clock";

export interface Dragged {
  bake: string;
  step: string;
  to: Moment;
}

interface Held {
  bake: string;
  step: string;
  begins: Moment;
  x: number;
}

const grid_min = 5;
const least_px = 6;

/** On the planner's grid: whole five minutes of the clock. */
const on_grid = (at: Moment) => (Math.round(at / (grid_min * 60_000)) * grid_min * 60_000) as Moment;

export function useDrag(answer: DayAnswer, to_do: { move: (bake: string, step: string, to: Moment) => void; open: (bake: string, step: string) => void }) {
  const held = useRef<Held | undefined>(undefined);
  const [dragged, set_dragged] = useState<Dragged | undefined>(undefined);
  const let_go = () => {
    held.current = undefined;
    set_dragged(undefined);
  };
  const down = (event: PointerEvent) => {
    const { bake, step } = (event.target as SVGElement).dataset;
    const begun = answer.steps.find((one) => one.bake === bake && one.step === step);
    const begins = begun && !begun.begun ? from_utc(begun.begins) : undefined;
    if (bake === undefined || step === undefined || begins === undefined) return;
    held.current = { bake, step, begins, x: event.clientX };
    if (event.pointerType !== "touch") (event.currentTarget as Element).setPointerCapture(event.pointerId);
  };
  return {
    dragged,
    on: (long_h: number) => ({
      onPointerDown: down,
      onPointerMove: (event: PointerEvent) => {
        const one = held.current;
        if (!one || event.pointerType === "touch") return;
        const by_px = event.clientX - one.x;
        if (Math.abs(by_px) < least_px && !dragged) return;
        const wide = (event.currentTarget as Element).getBoundingClientRect().width;
        set_dragged({ bake: one.bake, step: one.step, to: on_grid(after(one.begins, (by_px / wide) * long_h)) });
      },
      onPointerUp: () => {
        const one = held.current;
        if (dragged) to_do.move(dragged.bake, dragged.step, dragged.to);
        else if (one) to_do.open(one.bake, one.step);
        let_go();
      },
      onPointerCancel: let_go,
    }),
  };
}
