// The drink thinned with water to a strength: what to weigh together.
import { words_of } from "../../api/ask";
import type { ThinAnswer } from "../../api/types";
import { Figure } from "../../parts/field";
import { plain, scale_figure, useHabits, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { useAsked } from "../../state/asked";
import { useTyping } from "../../state/drafts";

export function Thin({ drink }: { drink: string }) {
  const habits = useHabits();
  const typing = useTyping(`thin.${drink}`, { strength: null as number | null, need_g: 1000 });
  const { strength, need_g } = typing.value;
  const { answer, error } = useAsked<ThinAnswer>("/api/thin", strength === null ? undefined : { drink, strength: `${strength} % vol`, need_g });
  return (
    <details>
      <summary>Thin it with water</summary>
      <div class="stack tight">
        <div class="pair">
          <Figure<number | null>
            label="Down to (% vol)"
            shown={strength === null ? "" : plain(strength, 1, habits)}
            read={(text) => (text.trim() === "" ? { ok: true, value: null } : typed.percent(text.replace(/\s*vol\s*$/i, "")))}
            give={(percent) => typing.set({ strength: percent })}
            wrong={error ? words_of(error) : undefined}
            hint="such as 6"
          />
          <Figure label={`Needed (${habits.weight})`} shown={scale_figure(need_g, habits)} read={(text) => typed.weight(text, habits)} give={(g) => typing.set({ need_g: g })} />
        </div>
        {answer && !error && strength !== null && (
          <p role="status">
            <strong class="figure">{weight(answer.drink_g, habits)}</strong> {answer.drink} and <strong class="figure">{weight(answer.water_g, habits)}</strong> water.
          </p>
        )}
      </div>
    </details>
  );
}
