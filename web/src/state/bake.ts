// A bake on the page is the bake file as an object: the file's keys, amounts as text, keys in the order of the file. These
// functions change one thing and leave the rest as it is. What an amount means, only the server decides.

export type Form = Readonly<Record<string, unknown>>;
export type Table = Readonly<Record<string, unknown>>;

const table = (value: unknown): Table =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Table) : {};

/** The same bake with `value` at a key; undefined takes the key away. */
export function set(form: Form, key: string, value: unknown): Form {
  const { [key]: _, ...rest } = form;
  if (value === undefined) return rest;
  return key in form ? { ...form, [key]: value } : { ...form, [key]: value };
}

export const text = (form: Form, key: string): string => {
  const value = form[key];
  return typeof value === "string" ? value : typeof value === "number" ? String(value) : "";
};

// The bowl

export interface Line {
  name: string;
  amount: string;
}

/** The lines of the bowl; "liquid" is a total of them, not a line. */
export function lines(form: Form): Line[] {
  return Object.entries(table(form.bowl))
    .filter(([name]) => name !== "liquid")
    .map(([name, amount]) => ({ name, amount: String(amount) }));
}

export const liquid = (form: Form): string | undefined => {
  const value = table(form.bowl).liquid;
  return value === undefined ? undefined : String(value);
};

export function set_amount(form: Form, name: string, amount: string): Form {
  return set(form, "bowl", { ...table(form.bowl), [name]: amount });
}

const is_weight = (amount: string) => /\d\s*(g|kg|oz|lb)\s*$/.test(amount);

/** An amount changed. Flour that is all weighed says how much there is of everything: no other size stands beside it then. */
export function with_amount(form: Form, name: string, amount: string, flours: ReadonlySet<string>): Form {
  const next = set_amount(form, name, amount);
  const of_flour = lines(next).filter((line) => flours.has(line.name));
  if (!flours.has(name) || !of_flour.every((line) => is_weight(line.amount))) return next;
  return ["piece", "baked", "dough", "flour"].reduce((to, key) => set(to, key, undefined), next);
}

/** What of the flour the recipe wants of it, whatever was poured. */
export const planned_share = ({ of_flour, plan_g, actual_g }: { of_flour: number; plan_g: number; actual_g: number }) =>
  actual_g > 0 ? (of_flour * plan_g) / actual_g : of_flour;

/** Every line that is a weight, as a share of the flour, from what the bowl weighed. */
export function in_percent(form: Form, bowl: { lines: readonly { ingredient: string; of_flour: number; plan_g: number; actual_g: number }[] }): Form {
  const name_of = names_in(form, bowl.lines);
  return bowl.lines.reduce((to, line) => {
    const name = name_of.get(line.ingredient) ?? line.ingredient;
    const own = lines(to).find((l) => l.name === name);
    return own && is_weight(own.amount) ? set_amount(to, name, amount_text(100 * planned_share(line), "%")) : to;
  }, form);
}

export function add_line(form: Form, name: string, amount: string, before?: string): Form {
  const out: Record<string, unknown> = {};
  const bowl = table(form.bowl);
  for (const [key, value] of Object.entries(bowl)) {
    if (key === before) out[name] = amount;
    if (key !== name) out[key] = value;
  }
  if (!(name in out)) out[name] = amount;
  return set(form, "bowl", out);
}

/** Takes a line away, with its bottle, what was done to it, its place in the order of mixing and what was weighed of it. */
export function remove_line(form: Form, name: string): Form {
  let out = set(form, "bowl", without(table(form.bowl), name));
  const of = String(table(table(form.prepared)[name]).of ?? name);
  for (const key of ["bottle", "ingredient", "weighed", "prepared"]) {
    const rest = without(without(table(form[key]), name), of);
    if (form[key] !== undefined) out = set(out, key, Object.keys(rest).length ? rest : undefined);
  }
  return set_stages(
    out,
    stages(out).map((stage) =>
      Array.isArray(stage.order) ? { ...stage, order: stage.order.filter((n) => n !== name) } : stage,
    ),
  );
}

function without(of: Table, key: string): Table {
  const { [key]: _, ...rest } = of;
  return rest;
}

// Amounts: a figure and what it counts.

export const amount_units = [
  "%", "% of the liquid", "rest of the liquid", "g", "kg", "oz", "lb", "mL", "cl", "L", "tsp", "tbsp",
] as const;
export type AmountUnit = (typeof amount_units)[number];

/** "50 % of the liquid" as 50 and "% of the liquid"; undefined for what is written otherwise. */
export function amount_parts(amount: string): { figure: number | undefined; unit: AmountUnit } | undefined {
  const bare = amount.trim();
  if (bare === "rest of the liquid") return { figure: undefined, unit: "rest of the liquid" };
  const found = /^(\d+(?:[.,]\d+)?)\s*(.+)$/.exec(bare);
  const unit = amount_units.find((u) => u === found?.[2]);
  if (!found || !unit) return undefined;
  return { figure: Number((found[1] ?? "").replace(",", ".")), unit };
}

/** Written with a point and no more figures than say something, whatever the baker's decimal sign. */
export function amount_text(figure: number | undefined, unit: AmountUnit): string {
  if (unit === "rest of the liquid" || figure === undefined) return "rest of the liquid";
  return `${Math.round(figure * 1000) / 1000} ${unit}`;
}

/** How far one press of + or - goes. */
export function amount_step(unit: AmountUnit, figure: number): number {
  switch (unit) {
    case "%": return figure < 5 ? 0.1 : figure < 30 ? 1 : 5;
    case "% of the liquid": return 5;
    case "g": case "mL": return figure < 50 ? 1 : 10;
    case "kg": case "L": case "lb": return 0.1;
    default: return 1;
  }
}

// Bottles: what a label says

export const bottle = (form: Form, name: string): Table => table(table(form.bottle)[name]);

export function set_bottle(form: Form, name: string, label: Table | undefined): Form {
  const all = label === undefined ? without(table(form.bottle), name) : { ...table(form.bottle), [name]: label };
  return set(form, "bottle", Object.keys(all).length ? all : undefined);
}

/** An own bottle of the larder as an ingredient of this bake: like one that is known, with what its label says. */
export function with_own_bottle(form: Form, own: { name: string; like: string; label: Table }): Form {
  const named = own.like && own.like !== own.name
    ? set(form, "ingredient", { ...table(form.ingredient), [own.name]: { like: own.like } })
    : form;
  return Object.keys(own.label).length ? set_bottle(named, own.name, own.label) : named;
}

// Levain and stages

export const levain = (form: Form): Table => table(form.levain);
export const set_levain = (form: Form, key: string, value: unknown): Form =>
  set(form, "levain", set(levain(form), key, value));

export const oven = (form: Form): Table => table(form.oven);
export const set_oven = (form: Form, key: string, value: unknown): Form => {
  const next = set(oven(form), key, value);
  return set(form, "oven", Object.keys(next).length > 0 ? next : undefined);
};

export interface Stage extends Table {
  readonly do?: string;
}

export const stages = (form: Form): readonly Stage[] => (Array.isArray(form.stage) ? (form.stage as Stage[]) : []);
export const set_stages = (form: Form, all: readonly Stage[]): Form => set(form, "stage", all.length ? all : undefined);
export const set_stage = (form: Form, at: number, stage: Stage): Form =>
  set_stages(form, stages(form).map((s, i) => (i === at ? stage : s)));

/** The first stage of bulk: its warmth is the question of most days. */
export const bulk_at = (form: Form): number => stages(form).findIndex((s) => s.do === "bulk");

/** The weighed bowl names its lines as the larder does, in the order of the recipe: larder's name to the recipe's. */
export function names_in(form: Form, weighed: readonly { ingredient: string }[]): Map<string, string> {
  const own = lines(form);
  if (own.length !== weighed.length) return new Map(own.map((l) => [l.name, l.name]));
  return new Map(weighed.map(({ ingredient }, i) => [ingredient, own[i]?.name ?? ingredient]));
}

// Weights found by matching another bake

/** `masses`, in the order of the recipe and then what is new, as baker's percent of `flour_g`; what is now so is left alone. */
export function with_masses(
  form: Form,
  masses: readonly { ingredient: string; mass_g: number }[],
  flour_g: number,
  now: readonly { of_flour: number }[],
): Form {
  const own = lines(form);
  const liquids = new Set(lines(form).filter(({ amount }) => / of the liquid$/.test(amount)).map(({ name }) => name));
  let out = form;
  for (const [i, { ingredient, mass_g }] of masses.entries()) {
    const share = mass_g / flour_g;
    const name = own[i]?.name ?? ingredient;
    if (Math.abs(share - (now[i]?.of_flour ?? 0)) < 5e-5 && !liquids.has(name)) continue;
    const amount = amount_text(Math.round(share * 1e4) / 100, "%");
    out = name in table(out.bowl) ? set_amount(out, name, amount) : add_line(out, name, amount, "salt");
  }
  const still = lines(out).some(({ amount }) => / of the liquid$/.test(amount));
  return still ? out : set(out, "bowl", without(table(out.bowl), "liquid"));
}

export const blank: Form = {
  name: "New bake",
  pieces: 2,
  piece: "900 g",
  loss: { handling: "2 %", bake: "12 %" },
  bowl: { "white bread flour": "100 %", water: "70 %", salt: "2 %", levain: "20 %" },
  levain: { starter: "stiff ripe levain", feed: "1:2:1", flour: "white bread flour", temperature: "26 C" },
  stage: [
    { do: "mix" },
    { do: "bulk", temperature: "24 C", until: "doubled" },
    { do: "divide" },
    { do: "shape" },
    { do: "proof", temperature: "24 C", for: "2 h" },
  ],
};
