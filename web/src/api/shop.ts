// The till and the label as the server answers them: "barm.till/2", "barm.label/1" (docs/json.md). Money is text in the
// currency's own unit and is shown as it comes, never calculated with here.

export interface CostPart {
  name: string;
  words: string;
  batch: string;
  loaf: string;
  gram_exact: string | null;
  loaf_exact: string;
  mass_g: number | null;
  parts: CostPart[];
}

export interface Offer {
  basis: string;
  net: string;
  tax: string;
  shelf: string;
  profit: string;
  an_hour: string;
  slice: string | null;
  wholesale_net: string;
  wholesale_profit: string;
  break_even_loaves_of_batch: number | null;
  break_even_loaves_of_month: number | null;
}

export interface BottlePlan {
  loaves: number;
  bottles: { count: number; size: string }[];
  rest_mL: number;
  rest: string;
  price: string;
  loaf: string;
}

export interface DrinkInBottles {
  drink: string;
  loaf_mL: number;
  looked_at_loaves: number;
  this_batch: BottlePlan;
  cheapest: BottlePlan;
  whole: BottlePlan | null;
}

export interface ShareOfBuyers {
  price: string;
  asked: number;
  yes: number;
  share: number;
  share_p10: number;
  share_p90: number;
  profit_of_100_people: string;
}

export interface TillAnswer {
  schema: "barm.till/2";
  name: string;
  prices: string;
  currency: string;
  prices_from: string;
  prices_to: string;
  tax: { name: string; on_bread: number };
  loaves: number;
  loaves_sold: number;
  loaf_g: number;
  worked_h: number;
  cost: CostPart;
  effects: { part: string; change: string; loaf_exact: string; kilogram_exact: string }[];
  offers: Offer[];
  bottles: DrinkInBottles[];
  price_rises: { drink: string; bottle: string; loaf_exact: string; slice_exact: string | null; shelf_exact: string; shelf_slice_exact: string | null }[];
  buyers: {
    people: number;
    too_few: boolean;
    word: string;
    shares: ShareOfBuyers[];
    best: { price: string; p10: string; p90: string; at_the_edge: boolean } | null;
  } | null;
  not_counted: string[];
  doubts: string[];
}

export interface Piece {
  text: string;
  strong: boolean;
}

export interface LawRule {
  id: string;
  law: string;
  says: string;
  standing: string;
  /** Of an error: 1 somebody can be hurt, 2 a buyer is misled, 3 a form. */
  harm: number;
}

export interface LabelLine {
  field: string;
  text: string;
  pieces: Piece[];
  rules: LawRule[];
  unknown: string[];
}

export interface LabelAnswer {
  schema: "barm.label/1";
  name: string;
  rules_of: Rules;
  draft: string;
  loaf_g: number | null;
  /** Null where none was asked for. */
  portion_g: number | null;
  /** Without which nothing is printed. */
  missing: string[];
  /** Rules that were not read again, the worst first. */
  remembered: LawRule[];
  language: "en" | "de" | "fr" | "it" | "es";
  fields: Record<string, string>;
  serving: { measure: string; grams: number; servings: string; whole_too: boolean } | null;
  weight_height_mm: number;
  least_x_height_mm: number;
  small_pack_x_height_mm: number;
  lines: LabelLine[];
  questions: LabelLine[];
  ingredients: { items: { name: string; used_g: number; counted_g: number; left_g: number }[] };
  nutrition: {
    name: string;
    unit: string;
    indented: boolean;
    said_100_g: string;
    said_portion: string;
    /** Per cent of the Daily Value in the portion; of the United States alone. */
    daily_value_percent: string | null;
    /** Of a whole piece that has a column of its own; of the United States alone. */
    said_whole: string;
    daily_value_percent_whole: string | null;
    /** Null where the law asks for it and it is not known. */
    in_100_g: { low: number; middle: number; high: number } | null;
  }[];
}

export type Rules = "eu" | "uk" | "us";

/** Where the bakery's price file is kept in the daybook. */
export const price_setting = "price-file";
