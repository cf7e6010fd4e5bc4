// A calendar file with an alarm, for a phone in a pocket.
import type { BakeRecord } from "../../api/types";
import type { Form } from "../../state/bake";
import { text } from "../../state/bake";

export function Calendar({ record, form }: { record: BakeRecord; form: Form }) {
  if (text(form, "mixed") === "") {
    return <p class="quiet small">With an hour of mixing there is also a calendar file with alarms.</p>;
  }
  return (
    <p>
      <a class="button" href={`/api/bakes/${record.id}/calendar.ics`} download={`${record.name}.ics`}>
        Calendar file with alarms
      </a>
    </p>
  );
}
