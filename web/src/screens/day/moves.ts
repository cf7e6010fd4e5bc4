// Steps of a plan moved by hand: each move is asked of the server, which says at once what moves along or what it would break.
import { useEffect, useState } from "preact/hooks";
import { post } from "../../api/ask";
import type { DayAnswer } from "../../api/types";
import { iso, type Moment } from "../../say/clock";

/** A plan and the text of the day it was asked with. */
export interface Asked {
  text: string;
  answer: DayAnswer;
  /** The house goes by it. */
  kept?: boolean;
}

/** A plan as the server is asked about it. */
export const told_back = ({ plan, begins }: DayAnswer) => ({ from: plan, again: begins });

export interface Moves {
  answer: DayAnswer;
  /** How many moves the plan has behind it. */
  moved: number;
  waiting: boolean;
  error: unknown;
  /** What was told of the last move. */
  told: readonly string[];
  refused: boolean;
  move: (bake: string, step: string, to: Moment) => Promise<void>;
  undo: () => void;
}

export function useMoves({ text, answer: first }: Asked): Moves {
  const [plans, set_plans] = useState<DayAnswer[]>([first]);
  const [last, set_last] = useState<DayAnswer | undefined>(undefined);
  const [waiting, set_waiting] = useState(false);
  const [error, set_error] = useState<unknown>(undefined);
  useEffect(() => {
    set_plans([first]);
    set_last(undefined);
    set_error(undefined);
  }, [first]);
  const answer = plans.at(-1) ?? first;
  return {
    answer, moved: plans.length - 1, waiting, error,
    told: last?.moved ?? [],
    refused: last?.refused ?? false,
    move: async (bake, step, to) => {
      set_waiting(true);
      set_error(undefined);
      try {
        const next = await post<DayAnswer>("/api/day", { day: text, ...told_back(answer), move: `${bake}: ${step}`, to: iso(to) });
        set_last(next);
        if (!next.refused) set_plans([...plans, next]);
      } catch (wrong) {
        set_error(wrong);
      }
      set_waiting(false);
    },
    undo: () => {
      if (plans.length > 1) set_plans(plans.slice(0, -1));
      set_last(undefined);
    },
  };
}
