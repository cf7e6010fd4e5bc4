// The cost of a loaf as a tree that opens down to the gram.
import type { CostPart } from "../../api/shop";
import { useHabits } from "../../say/say";
import { money } from "../../say/money";

export function CostTree({ root, currency }: { root: CostPart; currency: string }) {
  const whole = Number(root.loaf_exact);
  return (
    <div class="cost-tree">
      <p class="row apart small quiet">
        <span>part</span>
        <span>{currency} for each loaf sold</span>
      </p>
      {root.parts.map((part) => (
        <Part key={part.name} part={part} whole={whole} currency={currency} />
      ))}
    </div>
  );
}

function Part({ part, whole, currency }: { part: CostPart; whole: number; currency: string }) {
  const row = <Row part={part} whole={whole} />;
  if (part.parts.length === 0 && !part.words && part.gram_exact === null) return <div class="cost-leaf">{row}</div>;
  return (
    <details>
      <summary>{row}</summary>
      <div class="cost-parts">
        <Words part={part} currency={currency} />
        {part.parts.map((inner) => (
          <Part key={inner.name} part={inner} whole={whole} currency={currency} />
        ))}
      </div>
    </details>
  );
}

function Row({ part, whole }: { part: CostPart; whole: number }) {
  const habits = useHabits();
  const share = whole > 0 ? Math.max(0, Number(part.loaf_exact) / whole) : 0;
  return (
    <span class="cost-row">
      <span>{part.name}</span>
      <span class="cost-bar" aria-hidden="true">
        <i style={{ width: `${100 * Math.min(1, share)}%` }} />
      </span>
      <strong class="figure">{money(part.loaf, habits)}</strong>
    </span>
  );
}

function Words({ part, currency }: { part: CostPart; currency: string }) {
  const habits = useHabits();
  return (
    <p class="quiet small">
      {part.words && `${part.words}; `}
      {money(part.batch, habits)} {currency} for the batch
      {part.gram_exact !== null && `; ${money(part.gram_exact, habits)} ${currency} a gram`}
    </p>
  );
}
