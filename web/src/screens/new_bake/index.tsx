// A new bake: blank, from an example, or as another was. It is begun in this browser; the daybook gets it when it is saved.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import { get_bake } from "../../api/bakes";
import type { BakeAnswer, BakeRecordList, ExamplesAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { date, from_utc, iso, now } from "../../say/clock";
import { useHabits } from "../../say/say";
import { go, link } from "../../shell/router";
import { type Form, blank, set } from "../../state/bake";
import { begin_again, begin_bake } from "../../state/new_bakes";
import { Refused } from "../../parts/states";

export default function NewBakeScreen() {
  const habits = useHabits();
  const examples = useAnswer<ExamplesAnswer>("/api/examples").answer?.examples ?? [];
  const bakes = useAnswer<BakeRecordList>("/api/bakes?limit=20", ["bake"]).answer?.bakes ?? [];
  const [wrong, set_wrong] = useState("");
  const begin = (form: Form) => go(link("new", begin_bake(form)), true);
  const from_example = async (text: string) => {
    try {
      begin((await post<BakeAnswer>("/api/bake", { bake: text })).form);
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  /** The next full hour: a dough is planned before it is mixed. */
  const soon = () => `${iso(now()).slice(0, 13)}:00:00`;
  const as_before = async (id: string) => {
    try {
      go(link("new", begin_again(await get_bake(id))), true);
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <div class="stack">
      <h1>A new bake</h1>
      <Refused why={wrong} />
      <p>
        <button type="button" class="main" onClick={() => begin(set(blank, "mixed", soon()))}>
          Begin with flour, water, salt and levain
        </button>
      </p>
      <section class="stack tight" aria-labelledby="examples">
        <h2 id="examples">From an example</h2>
        <p class="quiet small">Invented bakes of a bakery on a salt marsh that does not exist.</p>
        <ul class="bare picker">
          {examples.map((example) => (
            <li key={example.key}>
              <button type="button" class="example" onClick={() => void from_example(example.text)}>
                <strong>{example.name}</strong>
                <span class="quiet small">{example.note}</span>
              </button>
            </li>
          ))}
        </ul>
      </section>
      {bakes.length > 0 && (
        <section class="stack tight" aria-labelledby="before">
          <h2 id="before">As one of your own</h2>
          <ul class="bare picker">
            {bakes.map((bake) => (
              <li key={bake.id}>
                <button type="button" onClick={() => void as_before(bake.id)}>
                  <span>{bake.title}</span>
                  <span class="quiet small">{bake.mixed_at === null ? "" : date(from_utc(bake.mixed_at) ?? now(), habits)}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}
