// Three questions with the working shown: a drink for a share of the water with the real water held, the same alcohol from another
// bottle, and the alcohol of another bake. Each can be taken back; the working stands only while the recipe is as it was worked out.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import type { BakeRecordList, BottleRecordList, BowlAnswer, MatchAnswer, SwapAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { state_words } from "../../parts/bake_frame";
import { type Choosable, Picker, choices } from "../../parts/picker";
import { Sheet } from "../../parts/sheet";
import { type Form, add_line, lines, remove_line, with_masses, with_own_bottle } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import type { Ingredients } from "../../state/drinks";
import { Refused } from "../../parts/states";

interface Worked {
  /** The recipe that the working is of. */
  form: Form;
  words: string;
  working: readonly string[];
  conflicts?: readonly string[];
}

/** Saved, a recipe is another object and the same bowl. */
const same_bowl = (a: Form, b: Form) => JSON.stringify(a.bowl) === JSON.stringify(b.bowl);

interface Question {
  button: string;
  title: string;
  draft: BakeDraft;
  /** What is picked from, given what to do with the pick. */
  picker: (pick: (work: () => Promise<Worked>) => void) => ComponentChildren;
}

function Asking({ button, title, draft, picker }: Question) {
  const [open, set_open] = useState(false);
  const [worked, set_worked] = useState<Worked | undefined>(undefined);
  const [wrong, set_wrong] = useState("");
  const pick = async (work: () => Promise<Worked>) => {
    set_open(false);
    set_wrong("");
    try {
      const done = await work();
      draft.change(done.form);
      set_worked(done);
    } catch (error) {
      set_worked(undefined);
      set_wrong(words_of(error));
    }
  };
  return (
    <section class="stack tight" aria-label={button}>
      <div>
        <button type="button" onClick={() => set_open(true)}>
          {button}
        </button>
      </div>
      {open && (
        <Sheet title={title} close={() => set_open(false)}>
          {picker((work) => void pick(work))}
        </Sheet>
      )}
      <Refused why={wrong} />
      {worked && same_bowl(worked.form, draft.form) && (
        <div class="note stack tight" role="status" data-testid="working">
          <p>{worked.words}</p>
          {worked.conflicts?.map((line) => <p key={line}>{line}</p>)}
          <h3>The working</h3>
          <ol>
            {worked.working.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
          <div>
            <button type="button" onClick={() => draft.undo?.()}>
              Take it back
            </button>
          </div>
        </div>
      )}
    </section>
  );
}

const first_share = 0.5;

/** The recipe with such a bottle in it, though nothing of it yet: the file knows an own bottle by its line in the bowl. */
const with_bottle = (form: Form, choice: Choosable) => (choice.own ? add_line(with_own_bottle(form, choice.own), choice.name, "0 %", "water") : form);

function useBottles(draft: BakeDraft, larder: Ingredients): Choosable[] {
  const bottles = useAnswer<BottleRecordList>("/api/bottles", ["bottle"]).answer?.bottles ?? [];
  return choices(larder, bottles).filter((c) => c.group === "drink" && !lines(draft.form).some((l) => l.name === c.name));
}

const swapped = (bake: Form, drink: string, share_of_liquid: number) => post<SwapAnswer>("/api/swap", { bake, drink, share_of_liquid });

export function SwapIn({ draft, larder }: { draft: BakeDraft; larder: Ingredients }) {
  const there = useBottles(draft, larder);
  return (
    <Asking
      button="Swap water for a drink"
      title="Which drink for half of the liquid?"
      draft={draft}
      picker={(pick) => (
        <Picker
          choices={there}
          pick={(choice) =>
            pick(async () => {
              const { form, working } = await swapped(with_bottle(draft.form, choice), choice.name, first_share);
              return { form, working, words: `${choice.name} is now half of the liquid; the real water is held.` };
            })
          }
        />
      )}
    />
  );
}

/** A recipe that holds the alcohol and the real water of `like`, with the working in the weights that its rows then show. */
async function matched(from: Form, like: object): Promise<{ form: Form; answer: MatchAnswer }> {
  const [first, { bowl }] = await Promise.all([post<MatchAnswer>("/api/match", { bake: from, ...like }), post<BowlAnswer>("/api/bowl", { bake: from })]);
  const form = with_masses(from, first.masses, bowl.percent_of_g, bowl.lines);
  const answer = await post<MatchAnswer>("/api/match", { bake: form, ...like });
  return { form, answer: { ...answer, conflicts: first.conflicts } };
}

export function OtherBottle({ draft, larder, drink }: { draft: BakeDraft; larder: Ingredients; drink: string }) {
  const there = useBottles(draft, larder);
  return (
    <Asking
      button="The same alcohol from another bottle"
      title={`Which bottle in place of ${drink}?`}
      draft={draft}
      picker={(pick) => (
        <Picker
          choices={there}
          pick={(choice) =>
            pick(async () => {
              const like = draft.form;
              const base = remove_line(with_bottle(like, choice), drink);
              const { form: poured } = await swapped(base, choice.name, 0.2);
              const { form, answer } = await matched(poured, { like });
              return { form, working: answer.working, conflicts: answer.conflicts, words: `${choice.name} brings the alcohol that ${drink} brought; the real water is held.` };
            })
          }
        />
      )}
    />
  );
}

export function SameAlcohol({ draft, record }: { draft: BakeDraft; record: Bake }) {
  const bakes = useAnswer<BakeRecordList>("/api/bakes?limit=200", ["bake"]).answer?.bakes ?? [];
  return (
    <Asking
      button="As much alcohol as another bake"
      title="The alcohol of which bake?"
      draft={draft}
      picker={(pick) => (
        <ul class="bare picker">
          {bakes
            .filter((b) => b.id !== record.id)
            .map((b) => (
              <li key={b.id}>
                <button
                  type="button"
                  onClick={() =>
                    pick(async () => {
                      const { form, answer } = await matched(draft.form, { like_id: b.id });
                      return { form, working: answer.working, conflicts: answer.conflicts, words: `The alcohol and the real water of ${answer.like}.` };
                    })
                  }
                >
                  <span>{b.title}</span>
                  <span class="quiet small">{state_words[b.state]}</span>
                </button>
              </li>
            ))}
        </ul>
      )}
    />
  );
}
