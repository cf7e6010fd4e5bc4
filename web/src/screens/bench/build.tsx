// What is got ready before the weighing: the levain's feeding, how warm the water must be and how much of it as ice.
import { words_of } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import type { Bowl, WaterAnswer } from "../../api/types";
import { Figure } from "../../parts/field";
import type { Habits } from "../../say/habits";
import { scale_figure, useHabits, warmth, warmth_figure, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { useAsked } from "../../state/asked";
import { bulk_at, levain, stages } from "../../state/bake";
import { useTyping } from "../../state/drafts";
import { fed_weights } from "../../state/feeding";
import { celsius_of } from "../../state/warmth";

interface Shown {
  record: Bake;
  bowl: Bowl;
}

export function Build({ record, bowl }: Shown) {
  const habits = useHabits();
  return (
    <section class="stack tight" aria-labelledby="ready-first">
      <h2 id="ready-first">Before you weigh</h2>
      <Levain record={record} bowl={bowl} habits={habits} />
      <Water record={record} bowl={bowl} habits={habits} />
    </section>
  );
}

type Props = Shown & { habits: Habits };

function Levain({ record, bowl, habits }: Props) {
  const line = bowl.lines.find((l) => l.ingredient === "levain");
  const feed = String(levain(record.form).feed ?? "1:2:1");
  const parts = line && fed_weights(feed, line.plan_g);
  if (!line || !parts) return null;
  return (
    <p>
      Levain, {weight(line.plan_g, habits)} fed {feed}: <strong class="figure">{scale_figure(parts.ripe_g, habits)}</strong> ripe,{" "}
      <strong class="figure">{scale_figure(parts.flour_g, habits)}</strong> flour, <strong class="figure">{scale_figure(parts.water_g, habits)}</strong> water
      ({habits.weight}); a little more for what sticks to the bowl.
    </p>
  );
}

const usual_room_C = 22;
const usual_tap_C = 14;

/** The temperatures of the house are kept from bake to bake. */
function Water({ record, bowl, habits }: Props) {
  const typing = useTyping("water.house", { flour_C: usual_room_C, room_C: usual_room_C, tap_C: usual_tap_C });
  const { flour_C, room_C, tap_C } = typing.value;
  const dough_C = celsius_of(stages(record.form)[bulk_at(record.form)]?.temperature) ?? 24;
  const water_g = bowl.lines.find((l) => l.ingredient === "water")?.plan_g;
  const { answer, error } = useAsked<WaterAnswer>("/api/water", water_g === undefined || water_g <= 0 ? undefined : { dough_C, flour_C, room_C, water_g, tap_C });
  if (water_g === undefined || water_g <= 0) return null;
  const warm = (label: string, key: "flour_C" | "room_C" | "tap_C") => (
    <Figure label={`${label} (°${habits.warmth})`} shown={warmth_figure(typing.value[key], habits)} read={(t) => typed.warmth(t, habits)} give={(C) => typing.set({ [key]: C })} />
  );
  return (
    <details>
      <summary>
        <span>
          Water {answer && !error && <strong class="figure">at {warmth(answer.water_C, habits)}</strong>}
          {answer && !error && answer.ice_g !== null && answer.ice_g >= 1 && `, ${weight(answer.ice_g, habits)} of it as ice`}{" "}
          <span class="quiet small">for a dough of {warmth(dough_C, habits)}</span>
        </span>
      </summary>
      <div class="pair">
        {warm("Flour", "flour_C")}
        {warm("Room", "room_C")}
        {warm("Tap water", "tap_C")}
      </div>
      {error ? <p class="note">{words_of(error)}</p> : null}
    </details>
  );
}
