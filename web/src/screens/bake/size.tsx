// How much dough: pieces, baked loaves, the whole dough, the flour, or the liquid; one of them is given, the rest follows.
import { useState } from "preact/hooks";
import type { Bowl, Problem } from "../../api/types";
import { Choice, Figure } from "../../parts/field";
import { plain, useHabits, weight } from "../../say/say";
import type { Habits } from "../../say/habits";
import * as typed from "../../say/typed";
import { type Form, in_percent, set, text } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { problem_at } from "./problem";
import { RecipeLine } from "./recipe_line";

type Given = "pieces" | "baked" | "dough" | "flour" | "liquid" | "lines";

/** What the file gives. */
function given_in(form: Form): Given {
  if (form.flour !== undefined) return "flour";
  if (form.dough !== undefined) return "dough";
  if (form.baked !== undefined) return "baked";
  if (form.piece !== undefined) return "pieces";
  return "lines";
}

function sized(form: Form, pieces: number | undefined, by: { piece?: string; dough?: string; flour?: string }): Form {
  const keys = { pieces, piece: undefined, baked: undefined, dough: undefined, flour: undefined, ...by } as const;
  return Object.entries(keys).reduce<Form>((to, [key, value]) => set(to, key, value), form);
}

const pieces_of = (bowl: Bowl | undefined, habits: Habits) =>
  bowl && bowl.pieces > 0 ? `${bowl.pieces} × ${weight(bowl.piece_g, habits)}` : "by its flour";

const weighed = "the flour weighed";
const all_flour = "all flour";

const grams = (g: number) => `${Math.round(10 * g) / 10} g`;

/** The same dough, said so; where weights of flour gave the size, they become shares of the flour. */
function said_as(given: Given, weighed: Form, bowl: Bowl): Form {
  const form = given_in(weighed) === "lines" ? in_percent(weighed, bowl) : weighed;
  const pieces = Number(form.pieces ?? 0) || bowl.pieces || 1;
  switch (given) {
    case "pieces": return sized(form, pieces, { piece: grams(bowl.dough_g / pieces) });
    case "dough": return sized(form, Number(form.pieces ?? 0) || undefined, { dough: grams(bowl.dough_g) });
    default: return sized(form, undefined, { flour: grams(bowl.percent_of_g) });
  }
}

export function SizeLine(props: { draft: BakeDraft; bowl: Bowl | undefined; problem: Problem | undefined; open: boolean; set_open: (open: boolean) => void }) {
  const { draft, bowl, problem } = props;
  const { form } = draft;
  const habits = useHabits();
  const in_file = given_in(form);
  const words = {
    pieces: `${text(form, "pieces")} × ${text(form, "piece")}`,
    baked: `${text(form, "pieces")} × ${text(form, "baked")} baked`,
    flour: `${text(form, "flour")} flour`,
    dough: text(form, "dough"),
    liquid: "",
    lines: pieces_of(bowl, habits),
  }[in_file];
  const wrong = ["pieces", "piece", "baked", "dough", "flour"].map((key) => problem_at(problem, key)).find((w) => w !== undefined);
  return (
    <RecipeLine name="dough" amount={words} weight={bowl ? weight(bowl.dough_g, habits) : ""} wrong={wrong !== undefined} open={props.open} set_open={props.set_open}>
      <Size {...props} in_file={in_file} wrong={wrong} habits={habits} />
    </RecipeLine>
  );
}

function Size({ draft, bowl, in_file, wrong, habits }: { draft: BakeDraft; bowl: Bowl | undefined; in_file: Given; wrong: string | undefined; habits: Habits }) {
  const { form, change } = draft;
  const [chosen, set_chosen] = useState<Given | undefined>(undefined);
  const given = chosen ?? in_file;
  const say = (to: Given) => {
    set_chosen(to);
    if (bowl) change(said_as(to, form, bowl));
  };
  const weighs = (of: number | undefined) => (of === undefined ? "" : plain(habits.weight === "oz" ? of / 28.349523125 : of, habits.weight === "oz" ? 1 : 0, habits));
  const total = (label: string, now_g: number | undefined, give: (g: number) => void) => (
    <Figure label={`${label} (${habits.weight})`} shown={weighs(now_g)} read={(t) => above_nothing(typed.weight(t, habits))} give={give} wrong={wrong} input={{ inputMode: "text" }} />
  );
  const of_weighed = form.percent_of === weighed;
  const liquid_g = bowl && bowl.liquid_of_flour * bowl.flour_g;
  return (
    <div class="pair">
      <Choice
        label="What is given"
        value={given}
        options={[
          ["pieces", "pieces of dough"],
          ...(in_file === "baked" ? ([["baked", "baked loaves"]] as const) : []),
          ["dough", "the whole dough"],
          ["flour", "all the flour"],
          ["liquid", "all the liquid"],
          ...(in_file === "lines" ? ([["lines", "the flour in the bowl"]] as const) : []),
        ]}
        give={say}
      />
      {given === "lines" && <Figure label="Pieces" shown={text(form, "pieces")} read={whole_number} give={(n) => change(set(form, "pieces", n))} wrong={wrong} input={{ inputMode: "numeric" }} />}
      {(given === "pieces" || given === "baked") && [
        <Figure key="pieces" label="Pieces" shown={text(form, "pieces")} read={whole_number} give={(n) => change(set(form, "pieces", n))} wrong={wrong} input={{ inputMode: "numeric" }} />,
        <PieceField key="piece" at={given === "baked" ? "baked" : "piece"} draft={draft} habits={habits} />,
      ]}
      {given === "dough" && total("Whole dough", bowl?.dough_g, (g) => change(set(form, "dough", grams(g))))}
      {given === "flour" && total(of_weighed ? "The flour weighed" : "All the flour", bowl?.percent_of_g, (g) => change(sized(form, undefined, { flour: grams(g) })))}
      {given === "liquid" && total("All the liquid", liquid_g, (g) => bowl && change(sized(form, undefined, { flour: grams((g * bowl.percent_of_g) / (bowl.liquid_of_flour * bowl.flour_g)) })))}
      <Choice
        label="Percent is of"
        value={of_weighed ? weighed : all_flour}
        options={[
          [all_flour, "all flour, the levain’s too"],
          [weighed, "the flour weighed"],
        ]}
        give={(to) => change(set(form, "percent_of", to === weighed ? weighed : undefined))}
      />
    </div>
  );
}

function PieceField({ at, draft, habits }: { at: "piece" | "baked"; draft: BakeDraft; habits: Habits }) {
  const { form, change } = draft;
  return (
    <Figure
      label={at === "piece" ? "A piece of dough" : "A baked loaf"}
      shown={text(form, at)}
      read={(t) => {
        const read = above_nothing(typed.weight(t, habits));
        return read.ok ? { ok: true, value: t.trim() } : read;
      }}
      give={(t) => change(set(form, at, /[a-z]\s*$/i.test(t) ? t : `${t.replace(",", ".")} ${habits.weight}`))}
      input={{ inputMode: "text" }}
    />
  );
}

function above_nothing<Mass extends number>(read: typed.Typed<Mass>): typed.Typed<Mass> {
  return read.ok && read.value <= 0 ? { ok: false, why: "There must be some of it: write 900 g." } : read;
}

function whole_number(typed_text: string): typed.Typed<number> {
  const read = typed.number(typed_text);
  if (!read.ok) return read;
  return Number.isInteger(read.value) && read.value > 0 ? read : { ok: false, why: "Pieces are counted: 1, 2, 3." };
}
