// The last question of every experiment: what does this loaf cost, what can be asked for it, what may it be called.
import { useState } from "preact/hooks";
import { BakeFrame } from "../../parts/bake_frame";
import { Leaves } from "../../parts/leaves";
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
          <Leaves label="What to look at" leaves={parts} here={part} give={set_part} />
          {part === "till" && <Till id={record.id} to_prices={() => set_part("prices")} />}
          {part === "label" && <LabelSheet id={record.id} />}
          {part === "prices" && <PriceFile />}
        </div>
      )}
    </BakeFrame>
  );
}
