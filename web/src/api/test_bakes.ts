// Test bakes as the server answers them: "barm.testbake-…/1" (docs/json.md).

export interface TestDough {
  name: string;
  made: string;
  plain: boolean;
  dough_g: number;
  ph_at_mixing: number;
  lines: { ingredient: string; mass_g: number }[];
  notes: string[];
  differs_from_plain: { words: string }[];
  expected?: { p10_h: number | null; p50_h: number | null; p90_h: number | null; chance_in_time: number };
}

interface Head {
  name: string;
  question: string;
  base: string;
  days: string[];
  jars: number;
  within_h: number;
}

export interface PlanAnswer extends Head {
  doughs: TestDough[];
  jars_placed: { day: string; place: number; label: string; dough: string; repeat: number }[];
  cautions: string[];
}

export interface ToldApart {
  rank: number;
  causes: { cause: string; telling: string; variance_inflation: number | null; with: string[] }[];
  words: string[];
  working: string[];
}

export interface BeforeAnswer extends Head {
  doughs: TestDough[];
  told_apart: ToldApart;
  answered: { cause: string; cannot_bite: boolean; words: string }[];
  difference: number;
  chance_as_planned: number;
  needed: { days: number; jars: number; chance: number }[];
  draws: number;
}

export interface JarRead {
  day: string;
  dough: string;
  repeat: number;
  looks: { t_h: number; ratio: number; fitted_ratio: number | null }[];
  risen: boolean;
  lag_h: number | null;
  speed_per_h: number | null;
  peak_ratio: number | null;
}

export interface AfterAnswer extends Head {
  verdict: {
    sentence: string;
    causes: {
      cause: string;
      finding: "acts" | "does_not" | "not_decided";
      weight: number;
      weight_before: number;
      hours: number | null;
      hours_low: number | null;
      hours_high: number | null;
      at_least: boolean;
      words: string;
    }[];
    combinations: { acting: string[]; weight: number }[];
    odd_readings: string[];
  };
  told_apart: ToldApart;
  control: string;
  jars_read: JarRead[];
  compared: { what: string; contrasts: { dough: string; difference: number | null; low: number | null; high: number | null; p: number | null; clear: boolean }[]; unseen: { dough: string; words: string }[] }[];
  dose_curves: { cause: string; unit: string; half_speed_dose: number | null; half_low: number | null; half_high: number | null }[];
}

export interface NextAnswer extends Head {
  after: boolean;
  so_far: string;
  candidates: { made: string; settles: number; drink_price: number | null; currency: string; settles_per_money: number | null; baked: boolean; reason: string }[];
}

export interface TasteAnswer {
  tasters: number;
  tasters_needed: number;
  power: number;
  right_needed: number;
  a: string;
  b: string;
  servings: { taster: number; order: string; labels: string[]; odd: number }[];
  result: { right: number; p_value: number; can_tell: boolean; tell: number; tell_low: number; tell_high: number; words?: string } | null;
  cautions: string[];
}

export interface MapAnswer {
  name: string;
  drink: string;
  share: { least: number; most: number; cells: number };
  up: { what: string; least: number; most: number; cells: number };
  within_h: number | null;
  draws: number;
  /** row by row, from the least of both */
  chance: number[];
  now: { share: number; up: number; chance: number };
  contours: { level: number; closed: boolean; points: [number, number][] }[];
}

/** One height of one jar. */
export interface JarLook {
  day: string;
  dough: string;
  repeat: number;
  hours: number;
  height_mm: number;
}

/** A test bake as the daybook keeps it, in its `document`. */
export interface TestDocument {
  base_id: string;
  /** Asked about; empty: those worth asking about. */
  causes: string[];
  doughs: { name: string; make: string[] }[];
  days: string[];
  /** When the doughs of a day were mixed, on the wall. */
  mixed: Readonly<Record<string, string>>;
  jars: number;
  jar_mm: number;
  amount_g: number;
  within_h: number;
  seed: number;
  remark: string;
  looks: JarLook[];
}
