// A bake that was baked again from another: what is different, and what that does.
import { useBake } from "../../api/bakes";
import type { Bake } from "../../api/bakes";
import { link } from "../../shell/router";
import type { Form } from "../../state/bake";
import { differences } from "../../state/differences";
import { parent_of } from "../../state/new_bakes";

export function Parent({ record, form }: { record: Bake; form: Form }) {
  const { answer: parent } = useBake(parent_of(record));
  if (!parent) return null;
  const changed = differences(form, parent.form).filter((d) => d.what !== "mixed" && d.what !== "weighed");
  return (
    <section class="stack tight" aria-labelledby="parent">
      <h2 id="parent">
        Baked again from <a href={link("bake", parent.id)}>{parent.title}</a>
      </h2>
      {changed.length === 0 ? (
        <p class="quiet">Nothing is different yet.</p>
      ) : (
        <ul>
          {changed.map((d) => (
            <li key={d.what}>
              {d.what}: {d.mine}, before {d.theirs}
            </li>
          ))}
        </ul>
      )}
      {record.revision > 0 && (
        <p>
          <a href={`${link("compare")}?a=${record.id}&b=${parent.id}`}>What that does: both on one picture</a>
        </p>
      )}
    </section>
  );
}
