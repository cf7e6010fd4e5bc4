// A day, chosen by its weekday.
import { day_words } from "../say/clock";
import { useHabits } from "../say/say";
import { Choice } from "./field";
import { days_around } from "./when_field";

/** `value` and what is given: "2026-11-28", or nothing where `empty` says what that means. */
export function DayField({ label, value, give, empty }: { label: string; value: string; give: (day: string) => void; empty?: string }) {
  const habits = useHabits();
  const days = days_around(value);
  return <Choice label={label} value={value} options={[...(empty === undefined ? [] : [["", empty] as const]), ...days.map((day) => [day, day_words(day, habits)] as const)]} give={give} />;
}
