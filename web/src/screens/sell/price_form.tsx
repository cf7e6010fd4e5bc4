// What things cost, field by field: what is bought, work, oven, packaging, what comes every month, how it is sold.
import { useState } from "preact/hooks";
import { Fold } from "../../parts/fold";
import { Measure } from "../../parts/measure";
import { type Entry, entries, with_entry, with_value, without_entry } from "../../state/price_text";

type Kept = readonly (readonly [key: string, label: string, unit: string, such_as: string])[];

interface Kind {
  section: string;
  title: string;
  /** Many of them, or one. */
  many: boolean;
  /** What names one of many. */
  name?: string;
  shown?: readonly string[];
  fields: (currency: string) => Kept;
  fresh?: (currency: string) => Record<string, string>;
}

const kinds: readonly Kind[] = [
  {
    section: "buy", title: "Ingredients, as they are bought", many: true, name: "what", shown: ["size", "price"],
    fields: (money) => [
      ["what", "What", "", "white bread flour"], ["size", "In a package", "", "25 kg"], ["price", `Price (${money})`, money, "28.50"], ["tax", "Tax inside (%)", "%", "7"],
      ["waste", "Never reaches the bowl (%)", "%", "1"], ["deposit", `Deposit (${money})`, money, "0.25"], ["comes_back", "Of the empties (%)", "%", "90"],
    ],
    fresh: (money) => ({ what: "new ingredient", size: "1 kg", price: `1.00 ${money}` }),
  },
  { section: "work", title: "Work", many: false, fields: (money) => [["hourly", `An hour costs (${money})`, money, "18.50"]] },
  {
    section: "work.step", title: "What is done", many: true, name: "do", shown: ["batch", "loaf"],
    fields: () => [["do", "What", "", "weigh and mix"], ["batch", "Once a batch (min)", "min", "18"], ["loaf", "For each loaf (min)", "min", "1.5"], ["lost", "Loaves lost (%)", "%", "1"]],
    fresh: () => ({ do: "new step", batch: "5 min" }),
  },
  {
    section: "oven", title: "Oven", many: false,
    fields: (money) => [
      ["energy", "Energy", "", `0.31 ${money} / kWh`], ["power", "Power (kW)", "kW", "7.5"], ["preheat", "Heating up (min)", "min", "45"], ["bake", "Baking (min)", "min", "42"],
      ["loaves", "Loaves in one load", "", "6"], ["duty", "Heats so much of it (%)", "%", "60"],
    ],
  },
  {
    section: "wrap", title: "Packaging", many: true, name: "what", shown: ["price", "holds"],
    fields: (money) => [["what", "What", "", "paper bag"], ["price", `Price of a pack (${money})`, money, "32.00"], ["holds", "In a pack", "", "500"], ["each", "For each loaf", "", "1"]],
    fresh: (money) => ({ what: "new wrapping", price: `1.00 ${money}`, holds: "100" }),
  },
  {
    section: "overhead", title: "Fixed costs", many: true, name: "what", shown: ["month", "batch"],
    fields: (money) => [["what", "What", "", "rent"], ["month", `A month (${money})`, money, "640"], ["batch", `A batch (${money})`, money, "1.20"]],
    fresh: (money) => ({ what: "new cost", month: `1.00 ${money}` }),
  },
  {
    section: "sell", title: "Selling", many: false,
    fields: (money) => [
      ["margin", "Margin (%)", "%", "35"], ["hourly_pay", `An hour should earn (${money})`, money, "28"], ["asked", `Asked today (${money})`, money, "7.90"], ["wholesale_off", "Less to shops (%)", "%", "15"],
      ["slices", "Slices", "", "16"], ["loaves_a_month", "Loaves a month", "", "420"],
    ],
  },
];

interface Props {
  text: string;
  give: (text: string) => void;
}

export function PriceForm({ text, give }: Props) {
  const all = entries(text);
  const currency = all[0]?.values.currency ?? "EUR";
  return (
    <div class="stack">
      {kinds.map((kind) => (
        <Group key={kind.section} kind={kind} all={all.filter((e) => e.section === kind.section)} currency={currency} text={text} give={give} />
      ))}
    </div>
  );
}

function Group({ kind, all, currency, text, give }: Props & { kind: Kind; all: readonly Entry[]; currency: string }) {
  const [open, set_open] = useState<number | undefined>(undefined);
  const of = (entry: Entry | undefined) => (
    <div class="pair">
      {kind.fields(currency).map(([key, label, unit, such_as]) => (
        <Measure
          key={key}
          label={label}
          unit={unit}
          text={entry?.values[key]}
          such_as={such_as}
          give={(value) => give(entry ? with_value(text, entry, key, value) : value === undefined ? text : with_entry(text, kind.section, { [key]: value }, false))}
        />
      ))}
    </div>
  );
  return (
    <Fold title={kind.title} fact={kind.many ? all.length : fact_of(kind, all[0], currency)} open={kind.section === "buy"}>
      {!kind.many && of(all[0])}
      {kind.many &&
        all.map((entry, at) => {
          const name = entry.values[kind.name ?? ""] ?? "";
          return (
            <details key={at} class="price-line" open={open === at} onToggle={(e) => e.currentTarget.open && set_open(at)}>
              <summary>
                <span class="row apart grow">
                  <span>{name}</span>
                  <span class="quiet">{(kind.shown ?? []).flatMap((key) => entry.values[key] ?? []).join(" · ")}</span>
                </span>
              </summary>
              {of(entry)}
              <button type="button" class="plain" onClick={() => give(without_entry(text, entry))}>
                Take {name} out
              </button>
            </details>
          );
        })}
      {kind.many && (
        <div>
          <button
            type="button"
            onClick={() => {
              const fresh = kind.fresh?.(currency) ?? {};
              set_open(all.length);
              give(with_entry(text, kind.section, fresh));
            }}
          >
            + Add one
          </button>
        </div>
      )}
    </Fold>
  );
}

/** The first that is filled in: "An hour costs 18.50". */
function fact_of(kind: Kind, entry: Entry | undefined, currency: string): string {
  const first = kind.fields(currency).find(([key]) => entry?.values[key] !== undefined);
  return first === undefined ? "nothing yet" : `${first[1].replace(/ \(.*\)$/, "").toLowerCase()} ${entry?.values[first[0]]}`;
}
