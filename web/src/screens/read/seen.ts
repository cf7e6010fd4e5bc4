// The forecast of a dough as far as it was seen: its readings narrow it, and so does the height that is being slid, before
// it is noted.
import { useEffect, useRef, useState } from "preact/hooks";
import { anew, post } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import { OneByOne } from "../../api/newest";
import type { ForeseeAnswer, Outlook, ReadAnswer, ReadingRecordChange } from "../../api/types";
import type { RisePoint } from "../../parts/rise_run";
import type { Forecast } from "../../parts/ruler";
import type { Moment } from "../../say/clock";
import { type Known, read_of_it } from "../../state/known_readings";
import { heard_late } from "../../state/ready_watch";
import { useTicks } from "../../state/ticks";

export type SeenForecast = Forecast & { rise: RisePoint[]; head: ForeseeAnswer["head"] };

export interface Seen {
  now: SeenForecast | undefined;
  /** The same dough as it was foreseen before anybody looked. */
  before: SeenForecast | undefined;
  /** As it stands after the readings. */
  outlook: Outlook | undefined;
  /** Whose memory it starts from. */
  culture: string | undefined;
  taught: readonly string[];
  doubts: readonly string[];
  notes: readonly string[];
  error: unknown;
  again: () => void;
}

function seen_forecast(of: Outlook, answer: ReadAnswer): SeenForecast {
  return {
    ready: of.ready,
    past_its_best: of.past_its_best,
    look_again_h: (of.next_look?.at_h as number | undefined) ?? null,
    chance_never: of.chance_never,
    draws: Math.round(answer.effective_draws),
    horizon_h: answer.horizon_h,
    target_volume_ratio: answer.target_volume_ratio,
    temperature_C: answer.temperature_C,
    rise: of.rise,
    head: answer.head,
  };
}

/** What the readings taught; what they say nothing of is left out. */
export const worth_telling = (taught: ReadAnswer["taught"]): string[] =>
  taught.map((lesson) => lesson.words).filter((words) => words !== "" && !words.startsWith("nothing yet"));

type Question = { bake_id: string; count: number; unsent: ReadingRecordChange[] };
type Heard = { answer: ReadAnswer } | { recipe: ForeseeAnswer };

async function ask({ bake_id, count, unsent }: Question): Promise<Heard> {
  if (count === 0) return { recipe: await post<ForeseeAnswer>("/api/foresee", { bake_id }) };
  return { answer: await post<ReadAnswer>("/api/read", { bake_id, unsent }) };
}

/** `known` undefined: not known yet, and nothing is asked before they are. */
export function useSeen(record: Bake, known: readonly Known[] | undefined, height: number | undefined, mixed: Moment | undefined): Seen {
  const [state, set_state] = useState<Omit<Seen, "again">>({
    now: undefined, before: undefined, outlook: undefined, culture: undefined, taught: [], doubts: [], notes: [], error: undefined,
  });
  const [turn, set_turn] = useState(0);
  const ticks = useTicks(record.id);
  const line = useRef<OneByOne<Question, Heard>>();
  line.current ??= new OneByOne<Question, Heard>(
    ask,
    (heard) =>
      set_state(
        "recipe" in heard
          ? { now: heard.recipe, before: undefined, outlook: undefined, culture: heard.recipe.culture, taught: [], doubts: [], notes: [], error: undefined }
          : {
              now: seen_forecast(heard.answer.after, heard.answer),
              before: seen_forecast(heard.answer.before, heard.answer),
              outlook: heard.answer.after,
              culture: heard.answer.culture,
              taught: worth_telling(heard.answer.taught),
              doubts: heard.answer.doubts,
              notes: heard.answer.notes,
              error: undefined,
            },
      ),
    (error) => set_state((was) => ({ ...was, error })),
  );
  const read = read_of_it(known ?? [], mixed);
  const sliding = height === undefined || mixed === undefined ? [] : [{ bake: record.id, at: new Date().toISOString(), height_mm: height }];
  // The hour itself moves on: only what was read asks anew.
  const key = JSON.stringify([record.revision, ticks, known === undefined, read.key, height, turn, anew.value]);
  useEffect(() => {
    if (known === undefined) return;
    line.current?.ask({ bake_id: record.id, count: read.count + sliding.length, unsent: [...read.unsent, ...sliding] });
  }, [key]);
  useEffect(() => () => line.current?.end(), []);
  const head = state.now?.head;
  useEffect(() => {
    if (head && record.state === "live") heard_late(record.id, head.late);
  }, [head]);
  return { ...state, again: () => set_turn((n) => n + 1) };
}

