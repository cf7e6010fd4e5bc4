// Two questions with the working shown, each in two taps: a drink for a share of the water with the real water held, and
// the alcohol of another bake from this bake's bottle. Both can be undone.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import type { BakeRecordList, BottleRecordList, Bowl, MatchAnswer, SwapAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { state_words } from "../../parts/bake_frame";
import { Picker, choices } from "../../parts/picker";
import { Sheet } from "../../parts/sheet";
import { plain, useHabits, weight } from "../../say/say";
import { type Form, add_line, lines, with_masses, with_own_bottle } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import type { Ingredients } from "./recipe";

const first_share = 0.5;

type Shown =
  | { kind: "swap"; drink: string; share: number; working: readonly string[]; from: Form }
  | { kind: "match"; like: string; working: readonly string[]; conflicts: readonly string[] };

export function SwapAndMatch(props: { draft: BakeDraft; larder: Ingredients; bowl: Bowl | undefined; record: Bake }) {
  const { draft, larder, bowl, record } = props;
  const habits = useHabits();
  const [open, set_open] = useState<"swap" | "match" | undefined>(undefined);
  const [shown, set_shown] = useState<Shown | undefined>(undefined);
  const [wrong, set_wrong] = useState("");
  const bottles = useAnswer<BottleRecordList>("/api/bottles", ["bottle"]).answer?.bottles ?? [];
  const bakes = useAnswer<BakeRecordList>("/api/bakes?limit=200", ["bake"]).answer?.bakes ?? [];

  const attempt = async (work: () => Promise<Shown>) => {
    set_open(undefined);
    set_wrong("");
    try {
      set_shown(await work());
    } catch (error) {
      set_shown(undefined);
      set_wrong(words_of(error));
    }
  };

  const swap = (from: Form, drink: string, share: number) =>
    attempt(async () => {
      const answer = await post<SwapAnswer>("/api/swap", { bake: from, drink, share_of_liquid: share });
      draft.change(answer.form);
      return { kind: "swap", drink, share, working: answer.working, from };
    });

  const match = (like_id: string) =>
    attempt(async () => {
      const answer = await post<MatchAnswer>("/api/match", { bake: draft.form, like_id });
      if (bowl) draft.change(with_masses(draft.form, answer.masses, bowl.flour_g, bowl.lines));
      return { kind: "match", like: answer.like, working: answer.working, conflicts: answer.conflicts };
    });

  return (
    <section class="stack tight" aria-label="Swap and match">
      <div class="row">
        <button type="button" onClick={() => set_open("swap")}>
          Swap water for a drink
        </button>
        <button type="button" onClick={() => set_open("match")}>
          Match another bake's alcohol
        </button>
      </div>
      {open === "swap" && (
        <Sheet title="Which drink for half of the liquid?" close={() => set_open(undefined)}>
          <Picker
            choices={choices(larder, bottles).filter((c) => c.group === "drink" && !lines(draft.form).some((l) => l.name === c.name))}
            pick={(choice) => {
              // The bake file knows an own bottle by its line in the bowl.
              const from = choice.own ? add_line(with_own_bottle(draft.form, choice.own), choice.name, "0 %", "water") : draft.form;
              void swap(from, choice.name, first_share);
            }}
          />
        </Sheet>
      )}
      {open === "match" && (
        <Sheet title="The alcohol of which bake?" close={() => set_open(undefined)}>
          <ul class="bare picker">
            {bakes
              .filter((b) => b.id !== record.id)
              .map((b) => (
                <li key={b.id}>
                  <button type="button" onClick={() => void match(b.id)}>
                    <span>{b.title}</span>
                    <span class="quiet small">{state_words[b.state]}</span>
                  </button>
                </li>
              ))}
          </ul>
        </Sheet>
      )}
      {wrong && (
        <p class="note" role="alert">
          {wrong}
        </p>
      )}
      {shown && (
        <div class="note stack tight" role="status" data-testid="working">
          <p>
            {shown.kind === "swap" ? (
              <>
                <strong>{shown.drink}</strong> now is {plain(100 * shown.share, 0, habits)} % of the liquid; the real water is held
                {bowl && `, and the bowl holds ${weight(bowl.ethanol_g, habits)} of alcohol`}.
              </>
            ) : (
              <>
                The alcohol and the real water of <strong>{shown.like}</strong>.
              </>
            )}
          </p>
          {shown.kind === "swap" && (
            <label class="field">
              <span class="small">Share of the liquid (%)</span>
              <input
                type="range"
                min={5}
                max={100}
                step={5}
                value={Math.round(100 * shown.share)}
                onChange={(e) => void swap(shown.from, shown.drink, Number(e.currentTarget.value) / 100)}
              />
            </label>
          )}
          {shown.kind === "match" && shown.conflicts.map((line) => <p key={line}>{line}</p>)}
          <h3>The working</h3>
          <ol>
            {shown.working.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
          <div class="row">
            <button
              type="button"
              onClick={() => {
                draft.undo?.();
                set_shown(undefined);
              }}
            >
              Take it back
            </button>
            <button type="button" class="plain" onClick={() => set_shown(undefined)}>
              Good
            </button>
          </div>
        </div>
      )}
    </section>
  );
}
