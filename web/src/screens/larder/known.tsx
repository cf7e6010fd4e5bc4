// What is known of one ingredient: typical, from, to, and what it rests on.
import { useState } from "preact/hooks";
import type { LarderAnswer, LarderListAnswer } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Failed, Waiting } from "../../parts/states";
import type { Habits } from "../../say/habits";
import { plain, two_figures, useHabits } from "../../say/say";
import { Wide } from "../../parts/wide";

type Listed = LarderListAnswer["ingredients"][number];
type Ingredient = LarderAnswer["ingredients"][number];

const in_mg = new Set(["total_sulphite", "free_sulphite", "sorbate", "iso_alpha_acids", "caffeine", "calcium", "potassium"]);
const bare = new Set(["lag", "gluten_strength", "hydration", "protease", "rise_limit"]);

/** A property as a baker reads it: shares of mass in g or mg a kilogram, strength in % vol. */
export function known_words(property: string, low: number, typical: number, high: number, habits: Habits): string {
  const [scale, unit] =
    property === "strength" ? [100, "% vol"]
    : property === "ph" ? [1, ""]
    : property === "density" ? [0.001, "g/mL"]
    : property === "buffering" ? [1000, "mmol a kilogram and pH"]
    : property === "lactic_bacteria" || property === "wild_yeast" ? [1, "(tens: living cells a gram)"]
    : in_mg.has(property) ? [1e6, "mg a kilogram"]
    : bare.has(property) ? [1, ""]
    : [1000, "g a kilogram"];
  const say = (value: number) => (property === "density" ? plain(value * scale, 2, habits) : two_figures(value * scale, habits));
  const range = low === high ? "" : ` (${say(low)} to ${say(high)})`;
  return `${say(typical)}${range} ${unit}`.trim();
}

export function Known({ ingredient }: { ingredient: Listed }) {
  const [open, set_open] = useState(false);
  return (
    <details onToggle={(e) => set_open(e.currentTarget.open)}>
      <summary>
        <span class="row apart grow">
          <span>{ingredient.name}</span>
          <span class="quiet small">{ingredient.group}</span>
        </span>
      </summary>
      {open && <AllKnown of={ingredient.key} />}
    </details>
  );
}

function AllKnown({ of }: { of: string }) {
  const habits = useHabits();
  const held = useAnswer<LarderAnswer>(`/api/larder/${of}`);
  const ingredient: Ingredient | undefined = held.answer?.ingredients[0];
  if (!ingredient) return held.error ? <Failed error={held.error} again={held.again} /> : <Waiting what="Looking into the larder…" />;
  return (
    <div class="stack tight">
      {ingredient.also.length > 0 && <p class="quiet small">also: {ingredient.also.join(", ")}</p>}
      {ingredient.allergens.length > 0 && <p>Allergens: {ingredient.allergens.join(", ")}</p>}
      {ingredient.note && <p>{ingredient.note}</p>}
      <Wide name={`Known of ${ingredient.name}`}>
        <table>
          <thead>
            <tr>
              <th scope="col">what</th>
              <th scope="col">typical (9 of 10 between)</th>
              <th scope="col">rests on</th>
            </tr>
          </thead>
          <tbody>
            {Object.entries(ingredient.known).map(([property, v]) => (
              <tr key={property}>
                <td>{property === "ph" ? "pH" : property.replaceAll("_", " ")}</td>
                <td>{v.at === "absent" ? "none" : known_words(property, v.low_si, v.typical_si, v.high_si, habits)}</td>
                <td class="quiet small">{v.standing === "published" ? v.source : v.standing}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </div>
  );
}
