// A calendar file with an alarm, for a phone in a pocket.
import { zone_here } from "../../say/clock";
import { type Bake, mixed_of } from "../../api/bakes";
import type { Form } from "../../state/bake";

export function Calendar({ record, form }: { record: Bake; form: Form }) {
  if (mixed_of(record, form) === undefined) {
    return <p class="quiet small">With an hour of mixing there is also a calendar file with alarms.</p>;
  }
  if (record.revision === 0) return <p class="quiet small">Once it is saved there is also a calendar file with alarms.</p>;
  return (
    <p>
      <a class="button" href={`/api/bakes/${record.id}/calendar.ics?zone=${encodeURIComponent(zone_here())}`} download={`${record.title}.ics`}>
        Calendar file with alarms
      </a>
    </p>
  );
}
