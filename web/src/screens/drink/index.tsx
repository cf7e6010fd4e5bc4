// The place to play: how much of the liquid is the drink, and what that does to the hours, the chance, the cost; the same alcohol
// from another bottle; the drink let go flat, simmered or thinned. Nothing is kept before it is saved; one tap makes a test bake of it.
import { useEffect, useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import { type Bake, mixed_of } from "../../api/bakes";
import type { TillAnswer } from "../../api/shop";
import type { ComesThroughAnswer, LarderListAnswer, ReachAnswer, SwapAnswer, TestBakeRecord } from "../../api/types";
import { useAnswer } from "../../api/use";
import { AnswerTop } from "../../parts/answer_top";
import { BakeFrame } from "../../parts/bake_frame";
import { ChanceMap } from "../../parts/chance_map";
import { Choice, Figure } from "../../parts/field";
import { Leaves } from "../../parts/leaves";
import { SaveBar } from "../../parts/save_bar";
import { Failed, Refused, Waiting } from "../../parts/states";
import { iso, now } from "../../say/clock";
import { lasting, odds, plain, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import type { Params } from "../../shell/names";
import { go, link } from "../../shell/router";
import { useAsked } from "../../state/asked";
import { type Form, lines } from "../../state/bake";
import { type BakeDraft, useBakeDraft } from "../../state/bake_draft";
import { drinks_in } from "../../state/drinks";
import { useForesight } from "../../state/foresight";
import { useReadOfIt } from "../../state/known_readings";
import { useTyping } from "../../state/drafts";
import { causes, fresh } from "../../state/test_bake";
import { money } from "../../say/money";
import { Taste } from "./taste";
import { BeforeItGoesIn } from "./before_it_goes_in";
import { Reach } from "./reach";
import { OtherBottle, SwapIn, SameAlcohol } from "./swap_match";
import "../bake/bake.css";

const draws_for_reach = 100;
const draws_for_taste = 200;

const leaves = [["map", "Where it works"], ["taste", "Its taste"], ["other", "Another drink"]] as const;
type Leaf = (typeof leaves)[number][0];

export default function DrinkScreen({ params }: { params: Params }) {
  return (
    <BakeFrame id={params.id ?? ""} here="Drink">
      {(record) => <Drink key={record.id} record={record} />}
    </BakeFrame>
  );
}

function Drink({ record }: { record: Bake }) {
  const draft = useBakeDraft(record);
  const { form } = draft;
  const habits = useHabits();
  const larder = useAnswer<LarderListAnswer>("/api/larder").answer?.ingredients ?? [];
  const mixed = mixed_of(record, form);
  const foresight = useForesight(form, record, useReadOfIt(record, mixed));
  const playing = useTyping(`drink.${record.id}`, { within_h: 14, drink: "" });
  const there = drinks_in(form, larder);
  const drink = there.includes(playing.value.drink) ? playing.value.drink : (there[0] ?? "");
  const { answer } = foresight;
  const culture = record.culture ? { culture_id: record.culture } : {};
  const asked = { bake: form, ...culture, drink, within_h: playing.value.within_h };
  // When it is ready is answered first; the server works on few questions at once.
  const then = drink !== "" && (answer !== undefined || foresight.error !== undefined);
  const reach = useAsked<ReachAnswer>("/api/reach", then ? { ...asked, draws: draws_for_reach } : undefined);
  const far = drink === "" ? undefined : reach.answer;
  const taste = useAsked<ComesThroughAnswer>("/api/comes-through", then ? { bake: form, ...culture, draws: draws_for_taste } : undefined);
  const [chosen, set_leaf] = useState<Leaf | undefined>(undefined);
  const leaf = chosen ?? (drink === "" ? "other" : "map");
  // What was worked out there stays in sight when it brings the first drink or takes the last.
  const change = (to: Form) => {
    set_leaf("other");
    draft.change(to);
  };
  const drafting = { ...draft, change };
  return (
    <div class="bake-screen">
      <div class="top head-of-all">
        <AnswerTop foresight={foresight} mixed={mixed} state={record.state} />
      </div>
      <div class="recipe stack">
        {drink === "" ? (
          <p>There is no drink in this bread yet.</p>
        ) : (
          <>
            {there.length > 1 && <Choice label="Which drink" value={drink} options={there.map((d) => [d, d] as const)} give={(name) => playing.set({ drink: name })} />}
            {far ? <Share draft={draft} drink={drink} share={far.share_now} most={far.most_share} /> : reach.error ? <Failed error={reach.error} /> : <Waiting what="Weighing…" />}
            <Beside form={form} reach={far} taste={taste.answer} />
            <Figure label="Ready within (h)" shown={plain(playing.value.within_h, Number.isInteger(playing.value.within_h) ? 0 : 1, habits)} read={typed.lasting} give={(h) => playing.set({ within_h: h })} />
            <BeforeItGoesIn larder={larder} draft={draft} drink={drink} prepared_as={(line) => playing.set({ drink: line })} />
          </>
        )}
      </div>
      <div class="rest stack">
        {drink !== "" && <Leaves label="What to look at" leaves={leaves} here={leaf} give={set_leaf} />}
        {leaf === "map" && then && <ChanceMap asked={{ bake: form, ...culture, drink }} within_h={playing.value.within_h} />}
        {leaf === "map" && far && <Reach reach={far} asked={asked} />}
        {leaf === "taste" && drink !== "" && <Taste form={form} record={record} within_h={playing.value.within_h} asked={taste} />}
        {leaf === "other" && (
          <>
            <SwapIn draft={drafting} larder={larder} />
            {drink !== "" && <OtherBottle draft={drafting} larder={larder} drink={drink} />}
            {drink !== "" && <SameAlcohol draft={drafting} record={record} />}
            {drink !== "" && <AsTest record={record} form={form} costs={answer?.in_the_way.costs ?? []} />}
          </>
        )}
      </div>
      <SaveBar draft={draft} />
    </div>
  );
}

/** The drink's share of the liquid, slid or typed, `most` in place of all the water; the real water is held. */
function Share({ draft, drink, share, most }: { draft: BakeDraft; drink: string; share: number; most: number }) {
  const habits = useHabits();
  const [wrong, set_wrong] = useState("");
  const [slid, set_slid] = useState<number | undefined>(undefined);
  const shown = slid ?? Math.round(100 * share);
  const pour = async (percent: number) => {
    set_slid(percent);
    try {
      const answer = await post<SwapAnswer>("/api/swap", { bake: draft.form, drink, share_of_liquid: Math.min(1, percent / 100 / most) });
      set_wrong("");
      draft.change(answer.form);
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  useEffect(() => set_slid(undefined), [share]);
  return (
    <div class="warmth">
      <Figure label={`${drink}, % of liquid`} shown={plain(shown, 0, habits)} read={typed.percent_up_to(Math.round(100 * most))} give={(n) => void pour(n)} wrong={wrong || undefined} />
      <input type="range" aria-label={`Slide the share of ${drink}, in percent of the liquid`} min={0} max={Math.round(100 * most)} step={5} value={shown} onChange={(e) => void pour(Number(e.currentTarget.value))} />
    </div>
  );
}

/** What the share does: the chance to be ready in time, who tastes it, what a loaf costs. The hours stand at the top. */
function Beside({ form, reach, taste }: { form: Form; reach: ReachAnswer | undefined; taste: ComesThroughAnswer | undefined }) {
  const habits = useHabits();
  const till = useAsked<TillAnswer>("/api/till", reach && { bake: form });
  return (
    <dl class="between" aria-live="polite">
      {reach && [<dt key="c">in time</dt>, <dd key="c.">{odds(reach.chance_now, reach.draws)} doughs, within {lasting(reach.within_h)}</dd>]}
      {taste && taste.notes.length > 0 && [<dt key="t">noticed by</dt>, <dd key="t.">{taste.noticed_in_words}</dd>]}
      {till.answer && !till.error ? [<dt key="m">a loaf costs</dt>, <dd key="m.">{money(till.answer.cost.loaf, habits)} {till.answer.currency}</dd>] : null}
    </dl>
  );
}

const worth_asking_h = 0.25;

function AsTest({ record, form, costs }: { record: Bake; form: Form; costs: readonly { factor: string; costs_h: number }[] }) {
  const [wrong, set_wrong] = useState("");
  const suspected = costs.filter((c) => c.costs_h > worth_asking_h && causes.some((one) => one.cause === c.factor)).map((c) => c.factor);
  const make = async () => {
    try {
      const document = fresh(record.id, iso(now()).slice(0, 10), 1 + Math.floor(Math.random() * 1e6), suspected.length ? suspected : ["alcohol"]);
      const made = await post<TestBakeRecord>("/api/test-bakes", {
        title: `What slows ${record.title}?`,
        question: `Which of these holds the dough back: ${document.causes.join(", ")}?`,
        document: JSON.stringify(document),
      });
      go(link("test", made.id));
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  if (lines(form).length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby="as-test">
      <h2 id="as-test">Not sure?</h2>
      <p>A few small doughs in jars tell what it is that slows this bread.</p>
      <div>
        <button type="button" onClick={() => void make()}>
          Make a test bake of it
        </button>
      </div>
      <Refused why={wrong} />
    </section>
  );
}
