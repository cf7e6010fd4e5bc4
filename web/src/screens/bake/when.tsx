// Backwards: when to mix and to feed for bread that goes into the oven at an hour.
import { useState } from "preact/hooks";
import { post } from "../../api/ask";
import type { MomentsOfDraws, WhenAnswer } from "../../api/types";
import { Failed } from "../../parts/states";
import { WhenField } from "../../parts/when_field";
import { after, forecast_moment, iso, moment_of, now } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { odds } from "../../say/say";
import type { Form } from "../../state/bake";

/** A morning that most doughs can still be ready for. */
const a_morning_ahead = () => `${iso(after(now(), 32)).slice(0, 10)}T08:30`;

type Times = WhenAnswer["mix"][number];

function said(at: string | null, habits: Habits): string {
  const moment = at === null ? undefined : moment_of(at);
  return moment === undefined ? "" : forecast_moment(moment, habits);
}

function between(from: string | null, to: string | null, habits: Habits): string {
  const [first, last] = [said(from, habits), said(to, habits)];
  return first === last ? first : `${first} to ${last}`;
}

function words(times: Times, habits: Habits): string {
  if (!times.possible) return "no hour of mixing gives that";
  const mix = `mix ${between(times.mix_from_at, times.mix_to_at, habits)}`;
  return times.feed_from_at === null ? mix : `${mix}, feed the levain ${between(times.feed_from_at, times.feed_to_at, habits)}`;
}

const half = ({ p10_at, p50_at, p90_at }: MomentsOfDraws, habits: Habits) =>
  p10_at === p90_at ? said(p50_at, habits) : `about ${said(p50_at, habits)} (${between(p10_at, p90_at, habits)})`;

export function When({ form, culture, habits }: { form: Form; culture: string | null; habits: Habits }) {
  const [oven, set_oven] = useState(a_morning_ahead);
  const [answer, set_answer] = useState<WhenAnswer>();
  const [error, set_error] = useState<unknown>();
  const ask = async (event: Event) => {
    event.preventDefault();
    set_error(undefined);
    try {
      set_answer(await post<WhenAnswer>("/api/when", { bake: form, oven, ...(culture ? { culture_id: culture } : {}) }));
    } catch (failed) {
      set_answer(undefined);
      set_error(failed);
    }
  };
  return (
    <>
      <form class="row" onSubmit={(event) => void ask(event)}>
        <WhenField label="Into the oven" value={oven} give={set_oven} />
        <button type="submit">Find the hour</button>
      </form>
      {error ? <Failed error={error} /> : null}
      {answer && (
        <dl class="between" aria-live="polite" data-testid="when">
          {answer.mix.map((times) => [
            <dt key={times.chance}>{times.chance < 0.9 ? "4 in 5" : "19 in 20"}</dt>,
            <dd key={`${times.chance}.`}>{words(times, habits)}</dd>,
          ])}
          <dt>best</dt>
          <dd>
            {answer.best_chance > 0
              ? `mix ${said(answer.best_mix_at, habits)}: ${odds(answer.best_chance, answer.draws)} such doughs are ready then and not past their best`
              : "none of such doughs would be ready then: name a later hour"}
          </dd>
          {answer.bread.map(({ in: into, out, cut, bag }, i) => [
            <dt key={`load ${i}`}>{i === 0 ? "bread" : `load ${i + 1}`}</dt>,
            <dd key={`load ${i}.`}>
              {i > 0 && `in ${half(into, habits)}; `}out of the oven {half(out, habits)}; cool enough to cut {half(cut, habits)}, to bag {half(bag, habits)}
            </dd>,
          ])}
        </dl>
      )}
    </>
  );
}
