// What a loaf costs, what to ask for it, whole bottles, what buyers say.
import { Refusal, words_of } from "../../api/ask";
import type { BottlePlan, DrinkInBottles, Offer, TillAnswer } from "../../api/shop";
import { Fold } from "../../parts/fold";
import { Failed, Waiting } from "../../parts/states";
import { date_of } from "../../say/clock";
import { plain, useHabits, volume, weight } from "../../say/say";
import type { Habits } from "../../say/habits";
import { useAsked } from "../../state/asked";
import { drafts, useTyping } from "../../state/drafts";
import { Buyers } from "./buyers";
import { CostTree } from "./cost_tree";
import { fine, money, rate, signed } from "../../say/money";
import { Words } from "./words";

export function Till({ id, to_prices }: { id: string; to_prices: () => void }) {
  const habits = useHabits();
  const typing = useTyping(`till.${id}`, { margin: "", hourly_pay: "", asked: "", price_rise: "", buyers: "" });
  const { margin, hourly_pay, asked, price_rise, buyers } = typing.value;
  const given = Object.fromEntries(Object.entries(typing.value).filter(([, text]) => text.trim() !== ""));
  const held = useAsked<TillAnswer>("/api/till", { bake_id: id, ...given });
  if (!held.answer) {
    if (held.error instanceof Refusal && held.error.problem.field === "/prices") {
      return (
        <div class="note stack tight" role="status">
          <p>The till needs to know what things cost.</p>
          <div>
            <button type="button" class="main" onClick={to_prices}>
              To the prices
            </button>
          </div>
        </div>
      );
    }
    return held.error ? <Failed error={held.error} /> : <Waiting what="Adding up…" />;
  }
  const till = held.answer;
  const such_as = (example: string, empty = "as the price file has it") => `such as ${example}; empty: ${empty}`;
  const half = (field: string) => `half.till.${id}.${field}`;
  const half_typed = (field: string) => drafts(half(field)).length > 0;
  const wrong = (field: string) => (held.error instanceof Refusal && held.error.problem.field === field ? held.error.problem.detail : undefined);
  const at_a_field = ["/margin", "/hourly_pay", "/asked", "/price_rise", "/buyers"].some((field) => wrong(field) !== undefined);
  return (
    <div class="stack">
      <section aria-labelledby="costs" class="sheet stack tight">
        <h2 id="costs">A loaf costs</h2>
        <p class="answer figure">
          {money(till.cost.loaf, habits)} {till.currency}
        </p>
        <p>
          {till.loaves} loaves of {weight(till.loaf_g as never, habits)} baked; {plain(till.loaves_sold, 1, habits)} of them sold, the rest is
          lost on the way. Prices of {[...new Set([till.prices_from, till.prices_to])].map((day) => date_of(day, habits)).join(" to ")} (
          {till.prices}).
        </p>
        {till.not_counted.map((what) => (
          <p key={what} class="note">
            Not counted: {what}
          </p>
        ))}
        {till.doubts.map((what) => (
          <p key={what} class="quiet small">
            {what}
          </p>
        ))}
      </section>
      {held.error && !at_a_field ? <Failed error={held.error} /> : null}
      <section aria-labelledby="ask" class="stack tight">
        <h2 id="ask">What to ask</h2>
        <Offers till={till} habits={habits} />
      </section>
      <Fold title="Another margin or pay" fact={till.offers[0]?.basis} seldom open={["margin", "hourly_pay", "asked"].some((field) => field in given || half_typed(field))}>
        <div class="pair">
          <Words name={half("margin")} label="Margin" wrong={wrong("/margin")} hint={such_as("35 %")} value={margin} give={(t) => typing.set({ margin: t })} />
          <Words
            name={half("hourly_pay")}
            label="Pay for an hour"
            wrong={wrong("/hourly_pay")}
            hint={such_as(`28 ${till.currency}`)}
            value={hourly_pay}
            give={(t) => typing.set({ hourly_pay: t })}
          />
          <Words name={half("asked")} label="Asked today" wrong={wrong("/asked")} hint={such_as(`7.90 ${till.currency}`)} value={asked} give={(t) => typing.set({ asked: t })} />
        </div>
      </Fold>
      <Fold title="What it is made of" fact={most_of(till, habits)}>
        <CostTree root={till.cost} currency={till.currency} />
      </Fold>
      <Fold title="What a change does to a loaf" fact={till.effects.slice(0, 1).map((e) => `${e.part} ${e.change}: ${signed(e.loaf_exact, habits)} ${till.currency}`).join()} open={half_typed("price_rise") || price_rise !== ""}>
        <Effects till={till} habits={habits} />
        {till.price_rises.length > 0 && (
          <Words
            name={half("price_rise")}
            label="If a bottle costs more by"
            hint={such_as(`2 ${till.currency}`, "a tenth of its price")}
            wrong={wrong("/price_rise")}
            value={price_rise}
            give={(t) => typing.set({ price_rise: t })}
          />
        )}
      </Fold>
      {till.bottles.map((drink) => (
        <Bottles key={drink.drink} drink={drink} till={till} habits={habits} />
      ))}
      <Buyers till={till} name={half("buyers")} open={half_typed("buyers")} text={buyers} wrong={wrong("/buyers") && words_of(held.error)} give={(t) => typing.set({ buyers: t })} />
      <div class="row">
        <a class="button" href={`/api/bakes/${id}/prices.html`} target="_blank" rel="noopener">
          Shelf card and price sheet, to print
        </a>
        <a class="button" href={`/api/bakes/${id}/till.csv`} download="till.csv">
          All figures as a table (CSV)
        </a>
      </div>
    </div>
  );
}

/** The part of a loaf that costs most. */
function most_of(till: TillAnswer, habits: Habits): string {
  const [first, ...rest] = till.cost.parts;
  if (first === undefined) return "";
  const most = rest.reduce((a, b) => (Number(b.loaf_exact) > Number(a.loaf_exact) ? b : a), first);
  return `most of it ${most.name}: ${money(most.loaf, habits)} ${till.currency}`;
}

function Offers({ till, habits }: { till: TillAnswer; habits: Habits }) {
  const tax = till.tax.on_bread > 0 ? `with ${rate(till.tax.on_bread, habits)} ${till.tax.name}` : "no tax on bread";
  return (
    <ul class="bare">
      {till.offers.map((offer: Offer) => (
        <li key={offer.basis}>
          <details class="offer">
            <summary>
              <span class="grow">
                {offer.basis} <span class="quiet small">{money(offer.profit, habits)} left of it</span>
              </span>
              <strong class="figure large">
                {money(offer.shelf, habits)} {till.currency}
              </strong>
            </summary>
            <p class="small">
              On the shelf, {tax}; {money(offer.an_hour, habits)} {till.currency} for an hour of work; {offer.slice !== null && `${money(offer.slice, habits)} a slice; `}to shops {money(offer.wholesale_net, habits)},{" "}
              {money(offer.wholesale_profit, habits)} of it left
              {offer.break_even_loaves_of_batch !== null && `; ${offer.break_even_loaves_of_batch} loaves of a batch pay for its work and heat`}
              {offer.break_even_loaves_of_month !== null && `; ${offer.break_even_loaves_of_month} loaves a month earn the overhead`}.
            </p>
          </details>
        </li>
      ))}
    </ul>
  );
}

const shown_at_once = 5;

function Effects({ till, habits }: { till: TillAnswer; habits: Habits }) {
  const most = Math.max(...till.effects.map((effect) => Math.abs(Number(effect.loaf_exact))), 1e-9);
  const rows = (effects: TillAnswer["effects"], first: boolean) => (
    <dl class="way effects">
      {effects.map((effect, i) => {
        const by = Number(effect.loaf_exact);
        return (
          <>
            <dt>
              {effect.part}
              {effect.change && <span class="quiet small"> {effect.change}</span>}
            </dt>
            <dd class={`bar ${first && i === 0 ? "most" : ""}`} aria-hidden="true">
              <i class={by < 0 ? "gain" : ""} style={{ width: `${(100 * Math.abs(by)) / most}%` }} />
            </dd>
            <dd class="cost figure">
              {signed(effect.loaf_exact, habits)} {till.currency}
            </dd>
          </>
        );
      })}
    </dl>
  );
  const rest = till.effects.slice(shown_at_once);
  return (
    <>
      {rows(till.effects.slice(0, shown_at_once), true)}
      {rest.length > 0 && (
        <details>
          <summary>{rest.length} smaller ones</summary>
          {rows(rest, false)}
        </details>
      )}
    </>
  );
}

function Bottles({ drink, till, habits }: { drink: DrinkInBottles; till: TillAnswer; habits: Habits }) {
  const price_rise = till.price_rises.find((d) => d.drink === drink.drink);
  const plan = (words: string, p: BottlePlan | null, none: string) => (
    <>
      <dt>{words}</dt>
      <dd>
        {p === null
          ? none
          : `${p.loaves} loaves: ${p.bottles
              .filter((b) => b.count > 0)
              .map((b) => `${b.count} × ${b.size}`)
              .join(" and ")}, ${money(p.price, habits)} ${till.currency}; ${volume(p.rest_mL, habits)} left over (${money(p.rest, habits)}); ${money(p.loaf, habits)} a loaf if that is poured away`}
      </dd>
    </>
  );
  return (
    <details>
      <summary>Whole bottles: {drink.drink}</summary>
      <dl class="between">
        {plan("now", drink.this_batch, "")}
        {plan("used up", drink.whole, `no number of loaves to ${drink.looked_at_loaves} leaves nothing over`)}
        {plan("cheapest", drink.cheapest, "")}
      </dl>
      {price_rise && (
        <p>
          A bottle {money(price_rise.bottle, habits)} {till.currency} more makes a loaf cost {fine(price_rise.loaf_exact, habits)} {till.currency} more
          {price_rise.slice_exact !== null && `, a slice ${fine(price_rise.slice_exact, habits, 4)}`}; for the same margin a loaf sells for{" "}
          {fine(price_rise.shelf_exact, habits)} more{price_rise.shelf_slice_exact !== null && `, a slice for ${fine(price_rise.shelf_slice_exact, habits, 4)}`}.
        </p>
      )}
    </details>
  );
}
