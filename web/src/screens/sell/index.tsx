// The last question of every experiment: what does this loaf cost, what can be asked for it, what may it be called.
import { useState } from "preact/hooks";
import { BakeFrame } from "../../parts/bake_frame";
import type { Params } from "../../shell/names";
import { LabelSheet } from "./label";
import { PriceFile } from "./price_file";
import { Till } from "./till";
import "./sell.css";

type Part = "till" | "label" | "prices";
const parts: readonly (readonly [Part, string])[] = [
  ["till", "Cost and price"],
  ["label", "Label"],
  ["prices", "Prices"],
];

export default function SellScreen({ params }: { params: Params }) {
  const [part, set_part] = useState<Part>("till");
  return (
    <BakeFrame id={params.id ?? ""} here="Sell">
      {(record) => (
        <div class="stack">
          <div class="leaves" role="group" aria-label="What to look at">
            {parts.map(([key, words]) => (
              <button key={key} type="button" aria-pressed={part === key} onClick={() => set_part(key)}>
                {words}
              </button>
            ))}
          </div>
          {part === "till" && <Till id={record.id} to_prices={() => set_part("prices")} />}
          {part === "label" && <LabelSheet id={record.id} />}
          {part === "prices" && <PriceFile />}
        </div>
      )}
    </BakeFrame>
  );
}
