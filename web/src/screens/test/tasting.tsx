// Can tasters tell two loaves apart? A triangle test: three pieces, two of one loaf, one of the other.
import type { TasteAnswer } from "../../api/test_bakes";
import { Choice, Figure } from "../../parts/field";
import { Failed, Waiting } from "../../parts/states";
import { Wide } from "../../parts/wide";
import { odds, plain, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { useAsked } from "../../state/asked";
import { useTyping } from "../../state/drafts";

interface Typed {
  a: string;
  b: string;
  tasters: number;
  right: number | null;
}

export function Tasting({ test, doughs, seed }: { test: string; doughs: readonly string[]; seed: number }) {
  const habits = useHabits();
  const typing = useTyping<Typed>(`taste.${test}`, { a: doughs[0] ?? "A", b: doughs[1] ?? "B", tasters: 0, right: null });
  const { a, b, tasters, right } = typing.value;
  const held = useAsked<TasteAnswer>("/api/taste", { a, b, seed, ...(tasters > 0 ? { tasters } : {}), ...(right === null ? {} : { right }) });
  const answer = held.answer;
  const names = doughs.map((d) => [d, d] as const);
  return (
    <div class="stack">
      <div class="pair">
        <Choice label="One loaf" value={a} options={names} give={(name) => typing.set(name === b ? { a: name, b: a } : { a: name })} />
        <Choice label="The other" value={b} options={names} give={(name) => typing.set(name === a ? { a: b, b: name } : { b: name })} />
        <Figure label="Tasters" hint="0: as many as are needed" shown={plain(tasters, 0, habits)} read={(text) => typed.count(text, 1000)} give={(n) => typing.set({ tasters: n })} />
        <Figure<number | null>
          label="Right answers"
          shown={right === null ? "" : plain(right, 0, habits)}
          read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.count(text, tasters || answer?.tasters || 1000))}
          give={(n) => typing.set({ right: n })}
        />
      </div>
      {held.error ? <Failed error={held.error} /> : null}
      {!answer && !held.error && <Waiting what="Drawing lots…" />}
      {answer?.result && (
        <p class="verdict">
          {answer.result.right} of {answer.tasters} right: {answer.result.can_tell ? "they can tell them apart." : "no evidence that they can tell."}
        </p>
      )}
      {answer?.result && (
        <p>
          By guessing alone this many or more would be right {odds(answer.result.p_value, 100000)}. Between {plain(100 * Math.max(0, answer.result.tell_low), 0, habits)} and{" "}
          {plain(100 * answer.result.tell_high, 0, habits)} of 100 people can tell, 19 times of 20.
        </p>
      )}
      {answer && (
        <section class="stack tight" aria-labelledby="serving">
          <h2 id="serving">Who gets what</h2>
          <p>
            {answer.tasters} tasters; {answer.right_needed} right answers show a difference. If half of all people can tell, it is found {odds(answer.power, 1000)};{" "}
            {answer.tasters_needed} tasters are enough for that.
          </p>
          {answer.cautions.map((caution) => (
            <p key={caution} class="note">
              {caution}
            </p>
          ))}
          <Wide name="Plates of each taster">
            <table>
              <thead>
                <tr>
                  <th scope="col">taster</th>
                  <th scope="col">labels, left to right</th>
                  <th scope="col">loaves</th>
                  <th scope="col">odd one</th>
                </tr>
              </thead>
              <tbody>
                {answer.servings.map((one) => (
                  <tr key={one.taster}>
                    <th scope="row">{one.taster}</th>
                    <td class="figure">{one.labels.join(" · ")}</td>
                    <td>{one.order}</td>
                    <td class="figure">{one.labels[one.odd - 1] ?? one.odd}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </Wide>
          <div>
            <button type="button" onClick={() => print()}>
              Print
            </button>
          </div>
        </section>
      )}
    </div>
  );
}
