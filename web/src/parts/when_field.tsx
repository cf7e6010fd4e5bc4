// A day and an hour of it. The browser's own field hides the hour on a phone and follows the habits of the browser's country:
// here the day is chosen by its weekday and the hour typed as it is said.
import { after, clock, day_words, iso, moment_of, now, type Moment } from "../say/clock";
import { useHabits } from "../say/say";
import * as typed from "../say/typed";
import { Choice, Figure } from "./field";

const days_each_way = 45;

/** The days around today and that day: "2026-11-28". */
export function days_around(day: string): string[] {
  const noon = (of: string) => moment_of(`${of}T12:00`);
  const moments = [noon(iso(now()).slice(0, 10)), noon(day)].filter((m) => m !== undefined);
  const last = after(Math.max(...moments) as Moment, 24 * days_each_way);
  const out: string[] = [];
  // From noon to noon, so that a night in which the clock changes skips no day.
  for (let at = after(Math.min(...moments) as Moment, -24 * days_each_way); at <= last; at = after(at, 24)) out.push(iso(at).slice(0, 10));
  return out;
}

/** `value` and what is given: a local time such as 2026-11-28T07:00, or nothing. */
export function WhenField(props: {
  label: string;
  value: string;
  give: (value: string) => void;
  /** What no time at all means; else there must be one. */
  empty?: string;
  wrong?: string | undefined;
}) {
  const { label, value, give, empty, wrong } = props;
  const habits = useHabits();
  const at = moment_of(value);
  const shown = at ?? now();
  const hour = (minutes: number) => `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
  const days = days_around(value.slice(0, 10));
  return (
    <div class="when-field" role="group" aria-label={label}>
      <Choice
        label={label}
        value={at === undefined ? "" : iso(at).slice(0, 10)}
        options={[...(empty === undefined && at !== undefined ? [] : [["", empty ?? "choose a day"] as const]), ...days.map((day) => [day, day_words(day, habits)] as const)]}
        give={(day) => give(day === "" ? "" : `${day}T${iso(shown).slice(11, 16)}`)}
      />
      <Figure<number | undefined>
        label={`Hour of: ${label}`}
        hidden_label
        shown={at === undefined ? "" : clock(at, habits)}
        read={(text) => (text.trim() === "" && empty !== undefined ? { ok: true, value: undefined } : typed.clock_time(text))}
        give={(minutes: number | undefined) => give(minutes === undefined ? "" : `${iso(shown).slice(0, 10)}T${hour(minutes)}`)}
        wrong={wrong}
        input={{ inputMode: "text", placeholder: habits.clock === "12" ? "7:30 am" : "7:30" }}
      />
    </div>
  );
}
