// Written by tools/types.mjs from docs/openapi.json; do not edit.

/** a bake: the text of a bake file (docs/bake-file.md), or the same as an object: the keys of the file, amounts as text */
export type Bake = string | Record<string, unknown>;

export type BakeAnswer = {
  schema: "barm.bake/1";
  name: string;
  /** the bake file */
  text: string;
  /** the same as an object, keys in the order of the file */
  form: Record<string, unknown>;
};

export type BakeLine = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  /** read from the bake file */
  title: string;
  tags: string[];
  state: "draft" | "planned" | "live" | "finished" | "given_up";
  culture: string | null;
  /** 2026-11-28T06:00:00Z */
  mixed_at: string | null;
  /** 2026-11-28T06:00:00Z */
  finished_at: string | null;
  note: string;
  readings: number;
  /** 2026-11-28T06:00:00Z */
  last_reading: string | null;
  /** id of the newest */
  photo: string | null;
};

export type BakeRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  /** read from the bake file */
  title: string;
  tags: string[];
  state: "draft" | "planned" | "live" | "finished" | "given_up";
  /** the bake file; a draft need not be a bake yet */
  toml: string;
  culture: string | null;
  /** 2026-11-28T06:00:00Z */
  mixed_at: string | null;
  /** 2026-11-28T06:00:00Z */
  finished_at: string | null;
  note: string;
};

export type BakeRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  /** read from the bake file */
  title?: string;
  tags?: string[];
  state?: "draft" | "planned" | "live" | "finished" | "given_up";
  /** the bake file; a draft need not be a bake yet */
  toml?: string;
  culture?: string | null;
  /** 2026-11-28T06:00:00Z */
  mixed_at?: string | null;
  /** 2026-11-28T06:00:00Z */
  finished_at?: string | null;
  note?: string;
};

export type BakeRecordList = {
  schema: "barm.bakes/1";
  bakes: BakeLine[];
  /** without limit and offset */
  total: number;
};

export type BakeRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
};

export type BottleRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  title: string;
  /** as the larder calls it */
  ingredient: string;
  /** of the whole bottle, 9.60; empty when not known */
  price: string;
  currency: string;
  priced_on: string;
  size_mL: number;
  size_g: number;
  left_mL: number;
  left_g: number;
  whole_bottles: number;
  strength_percent_vol: number | null;
  sugar_g_per_L: number | null;
  opened_on: string | null;
  /** further lines of its [bottle] table */
  toml: string;
  remark: string;
};

export type BottleRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  title?: string;
  /** as the larder calls it */
  ingredient: string;
  /** of the whole bottle, 9.60; empty when not known */
  price?: string;
  currency?: string;
  priced_on?: string;
  size_mL?: number;
  size_g?: number;
  left_mL?: number;
  left_g?: number;
  whole_bottles?: number;
  strength_percent_vol?: number | null;
  sugar_g_per_L?: number | null;
  opened_on?: string | null;
  /** further lines of its [bottle] table */
  toml?: string;
  remark?: string;
};

export type BottleRecordList = {
  schema: "barm.bottles/1";
  bottles: BottleRecord[];
  /** without limit and offset */
  total: number;
};

export type Bowl = {
  name: string;
  pieces: number;
  piece_g: number;
  lines: {
    ingredient: string;
    plan_g: number;
    actual_g: number;
    volume_mL: number;
    of_flour: number;
  }[];
  dough_g: number;
  flour_g: number;
  /** the flour that percent is of */
  percent_of_g: number;
  /** all flour, the levain's too, or the flour weighed */
  percent_of: string;
  liquid_of_flour: number;
  real_water_of_flour: number;
  ethanol_g: number;
  ethanol_of_dough: number;
  ethanol_in_water_g_per_L: number;
  liquid_strength_percent_vol: number;
  salt_g: number;
  salt_in_water_g_per_L: number;
  sugar_in_water_g_per_L: number;
  ph_at_mixing: number;
  total_sulphite_mg_per_kg: number;
  free_sulphite_mg_per_kg: number;
  sorbate_mg_per_kg: number;
  carbon_dioxide_g: number;
  contraction_mL: number;
  water_activity: number;
  mend: Mend;
  /** of each drink that is prepared: what goes into it, and how */
  to_prepare: {
    ingredient: string;
    mass_g: number;
    from: {
      ingredient: string;
      mass_g: number;
    }[];
    how: string;
  }[];
  cautions: string[];
  doubts: string[];
};

export type BowlAnswer = {
  schema: "barm.bowl/1";
  bowl: Bowl;
};

/** what becomes of the loaves, where the bake has an [oven] */
export type Bread = {
  out: DatedSpread;
  cut: DatedSpread;
  bag: DatedSpread;
};

export type CalendarRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  draws?: number;
  seed?: number;
  horizon_h?: number;
  /** of the dough, instead of the bake's own */
  temperature_C?: number;
  /** minutes before, for the alarm */
  alarm_min?: number;
};

export type Change = {
  number: number;
  kind: string;
  id: string;
  revision: number;
  what: "saved" | "deleted" | "restored" | "purged";
  /** 2026-11-28T06:00:00Z */
  at: string;
};

export type ChangeList = {
  schema: "barm.changes/1";
  /** the least number since the daybook was made or a copy was put back */
  epoch: number;
  /** the last there is */
  last: number;
  changes: Change[];
  /** false: too long ago, fetch everything anew */
  complete: boolean;
};

export type ComesThroughAnswer = {
  schema: "barm.taste/1";
  name: string;
  /** all of it in a sentence; empty without a drink */
  line: string;
  /** share of tasters who would notice the drink */
  noticed: number;
  /** "nearly everyone", "7 of 10 tasters" */
  noticed_in_words: string;
  strength: TasteRange;
  loss_of_dough: number;
  crust_of_dough: number;
  ph_at_the_oven: number;
  alcohol_g_per_kg: TasteRange;
  alcohol_left: TasteRange;
  loaf_g: number;
  notes: TasteNote[];
  tongue: TasteSense[];
  tasting: {
    strength_before?: TasteRange;
    strength_after?: TasteRange;
    told_before?: number;
    told_after?: number;
    effective_draws?: number;
    surprise?: number;
    words?: string;
  } | null;
  doubts: string[];
  cautions: string[];
  draws: number;
};

export type ComesThroughRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  draws?: number;
  seed?: number;
  /** what the oven takes of the weight; left out: the bake's own */
  loss_of_dough?: number;
  /** share of the dough that becomes crust; left out: by the loss */
  crust_of_dough?: number;
  /** what panels found: 9 of 12 right, of a triangle test against a loaf without the drink; or words: gone, a hint, there, loud */
  tasted?: string[];
};

export type CultureMemory = {
  schema: "barm.culture_memory/1";
  id: string;
  /** of the culture: to leave a bake out, put its left_out with this */
  revision: number;
  name: string;
  /** bakes that were read at least twice, newest first */
  batches: {
    bake: string;
    title: string;
    /** 2026-11-28T06:00:00Z */
    mixed_at: string;
    /** heights */
    readings: number;
    left_out: boolean;
    levain_past_peak_h: number | null;
    /** in words */
    taught: string[];
    /** why nothing can be learned from it; empty when it can */
    trouble: string;
  }[];
  /** batches of its memory that are no bakes of this daybook */
  from_elsewhere: {
    name: string;
    date: string;
    readings: number;
  }[];
  differences: {
    about: string;
    over_the_book: number;
    p10_over_the_book: number;
    p90_over_the_book: number;
    doubt_left: number;
    between_batches_ln_sd: number;
    /** false: nothing known yet */
    known: boolean;
    words: string;
  }[];
  /** how much later a dough wakes up with a levain so long past its peak */
  levain_age: {
    past_peak_h: number;
    later_h: number;
    p10_later_h: number;
    p90_later_h: number;
    typical_later_h: number;
    doubt_left: number;
    words: string;
  };
};

export type CultureRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  title: string;
  /** as the larder calls such a starter */
  starter: string;
  flour: string;
  /** ripe:flour:water */
  feed: string;
  temperature_C: number;
  feed_every_h: number | null;
  ripe_weight_g: number | null;
  /** batches that are no bakes of this daybook; written by barm culture */
  memory: string;
  note: string;
  /** bakes from which it does not learn, by their ids */
  left_out: string[];
};

export type CultureRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  title?: string;
  /** as the larder calls such a starter */
  starter?: string;
  flour?: string;
  /** ripe:flour:water */
  feed?: string;
  temperature_C?: number;
  feed_every_h?: number | null;
  ripe_weight_g?: number | null;
  /** batches that are no bakes of this daybook; written by barm culture */
  memory?: string;
  note?: string;
  /** bakes from which it does not learn, by their ids */
  left_out?: string[];
};

export type CultureRecordList = {
  schema: "barm.cultures/1";
  cultures: CultureRecord[];
  /** without limit and offset */
  total: number;
};

export type CultureRequest = {
  /** of the daybook */
  culture_id: string;
  /** learn from each bake once more, also where its lesson is kept */
  anew?: boolean;
};

/** hours after mixing: 5, 10, 50, 90, 95 of 100 doughs; null: not within the horizon */
export type DatedSpread = {
  p05_h: number | null;
  p10_h: number | null;
  p50_h: number | null;
  p90_h: number | null;
  p95_h: number | null;
  /** local day and time, where the bake has a day */
  p50_at: string | null;
};

export type DayAgain = {
  schema: "barm.day_again/1";
  /** what moved, from when to when, or why the plan cannot be held; empty where nothing has come in since it was made */
  told: string[];
  /** of now; empty where the day cannot be read any more */
  made_from: string;
  /** the plan made again; null where nothing has come in or it cannot be held */
  day: DayAnswer | null;
};

export type DayAgainRequest = {
  /** the text of a day (docs/day.md), as it was planned */
  day: string;
  /** plan of the answer */
  from: DayBakePlan[];
  /** made_from of the answer */
  made_from: string;
};

export type DayAnswer = {
  schema: "barm.day/1";
  name: string;
  begins: string;
  /** the last bread */
  bread: string;
  planned: boolean;
  /** proved: no timetable lets more doughs through */
  best: boolean;
  /** by the clock */
  steps: DayStep[];
  free_hands: {
    from: string;
    to: string;
    pairs: number;
  }[];
  /** what of the house is taken, and by which bread; hands and each place in the order of docs/day.md */
  held: {
    what: string;
    /** so many the house has */
    of: number;
    by: {
      bake: string;
      step: string;
      from: string;
      to: string;
      amount: number;
    }[];
  }[];
  ways: string[];
  /** where there is no plan */
  why_not: string[];
  /** where bakes would meet, and what would ease it */
  collisions: string[];
  doubts: string[];
  chance: DayChance | null;
  by_the_clock: DayChance | null;
  each: {
    bake: string;
    chance: number;
    low: number;
    high: number;
    draws: number;
  }[];
  /** to be sent back as from */
  plan: DayBakePlan[];
  moved: string[];
  /** the step cannot be there: moved says why, the plan stayed as it was */
  refused: boolean;
  lists: DayLists;
  cautions: string[];
  made_with_draws: number;
  /** a digest of all that was known of the bakes: kept with a plan, it tells what came in since */
  made_from: string;
};

export type DayBakePlan = {
  bake: string;
  way: string;
  /** of each step, in order */
  begins: string[];
};

export type DayCalendarRequest = {
  /** the text of a day (docs/day.md); file of a bake is the id or the title of one in the daybook */
  day: string;
  /** the plan of an answer: no other is sought; left out: the best that is found */
  from?: DayBakePlan[];
  /** planned from then on, where that is later than the day begins: begins of the answer that from is of */
  again?: string;
  /** a step to be moved, such as Mead loaf: divide; with to */
  move?: string;
  /** where to, such as 2026-11-27T15:30 */
  to?: string;
  /** doughs the plan is made with */
  draws?: number;
  /** others its chance is counted on */
  fresh?: number;
  seed?: number;
  /** minutes before each step */
  alarm_min?: number;
};

export type DayChance = {
  chance: number;
  /** of the error of counting, 19 times in 20 */
  low: number;
  high: number;
  draws: number;
};

export type DayLine = {
  ingredient: string;
  mass_g: number;
  /** of a drink */
  volume_mL: number | null;
};

export type DayLists = {
  feed: {
    bake: string;
    at: string;
    words: string;
  }[];
  weigh: {
    bake: string;
    loaves: number;
    /** mixed then */
    at: string;
    lines: DayLine[];
  }[];
  /** of all doughs that are not mixed, water and ripe starter left out */
  needs: DayLine[];
  /** what of it is short; null: no shelf is known */
  buy: string[] | null;
};

export type DayRequest = {
  /** the text of a day (docs/day.md); file of a bake is the id or the title of one in the daybook */
  day: string;
  /** the plan of an answer: no other is sought; left out: the best that is found */
  from?: DayBakePlan[];
  /** planned from then on, where that is later than the day begins: begins of the answer that from is of */
  again?: string;
  /** a step to be moved, such as Mead loaf: divide; with to */
  move?: string;
  /** where to, such as 2026-11-27T15:30 */
  to?: string;
  /** doughs the plan is made with */
  draws?: number;
  /** others its chance is counted on */
  fresh?: number;
  seed?: number;
};

export type DayStep = {
  bake: string;
  step: string;
  begins: string;
  begins_local: string;
  ends: string;
  /** with the house to itself */
  earliest: string | null;
  latest: string | null;
  begun: boolean;
  /** pairs it takes */
  hands: number;
  /** pairs left then */
  hands_free: number;
  /** such as fridge 6 */
  places: string[];
};

export type DemoAnswer = {
  schema: "barm.demo/1";
  /** records put into the daybook */
  saved?: number;
  /** records put into its trash */
  removed?: number;
};

export type EquipmentRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  title: string;
  what: "oven" | "fridge" | "mixer";
  /** the lines of its table: what it can do, and what was learned of it (docs/bake-file.md) */
  toml: string;
  /** what it was learned from, a JSON list; the oven, fridge and mixer questions write it */
  measured: string;
  remark: string;
};

export type EquipmentRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  title: string;
  what?: "oven" | "fridge" | "mixer";
  /** the lines of its table: what it can do, and what was learned of it (docs/bake-file.md) */
  toml?: string;
  /** what it was learned from, a JSON list; the oven, fridge and mixer questions write it */
  measured?: string;
  remark?: string;
};

export type EquipmentRecordList = {
  schema: "barm.equipment/1";
  equipment: EquipmentRecord[];
  /** without limit and offset */
  total: number;
};

export type ExamplesAnswer = {
  schema: "barm.examples/1";
  examples: {
    /** mead-loaf */
    key: string;
    name: string;
    note: string;
    text: string;
  }[];
};

export type FeedingRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  culture: string;
  /** 2026-11-28T06:00:00Z */
  at: string;
  ripe_g: number;
  flour_g: number;
  water_g: number;
  flour: string;
  temperature_C: number | null;
  remark: string;
};

export type FeedingRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  culture: string;
  /** 2026-11-28T06:00:00Z */
  at: string;
  ripe_g?: number;
  flour_g?: number;
  water_g?: number;
  flour?: string;
  temperature_C?: number | null;
  remark?: string;
};

export type FeedingRecordList = {
  schema: "barm.feedings/1";
  feedings: FeedingRecord[];
  /** without limit and offset */
  total: number;
};

export type ForeseeAnswer = {
  schema: "barm.foresee/2";
  /** whose memory it starts from; empty: none */
  culture?: string;
  ready_for?: ReadyFor | null;
  bowl: Bowl;
  mixed_at: string | null;
  temperature_C: number;
  target_volume_ratio: number;
  horizon_h: number;
  draws: number;
  ready: Spread;
  risen_by_a_fifth: Spread;
  past_its_best: Spread;
  chance_never: number;
  look_again_h: number | null;
  rise: {
    t_h: number;
    p10_ratio: number;
    p50_ratio: number;
    p90_ratio: number;
  }[];
  in_the_way: InTheWay;
  /** the largest rise, left in the bulk, and when it has fallen back to 85 % of it */
  limit: {
    p10_ratio: number;
    p50_ratio: number;
    p90_ratio: number;
    fallen: Spread;
    /** limit and window of a dough held by pentosans, or one that cannot hold its rise; else empty */
    words: string;
  };
  /** where fewer than half of the doughs get there */
  why_never: {
    obstacle: "yeast_stops" | "cannot_hold" | "food_gone" | "too_slow";
    words: string;
    in_place_of_ready: string;
    /** the smallest one with which 4 of 5 get there */
    change: {
      what: "share_of_liquid" | "share_of_flour" | "temperature" | "fresh_levain" | "target";
      /** the ingredient, where it is one */
      of: string;
      /** share, Celsius or volume ratio */
      at_most: number;
      instead_of: number;
      words: string;
    } | null;
  } | null;
  head: Head;
  stages: StageTimes[];
  to_do: ToDo[];
  bread: Bread | null;
  out_of_the_cold: OutOfTheCold | null;
  oven: OvenInBrief | null;
  ph_4_6: Spread;
  cautions: string[];
};

export type ForeseeRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  draws?: number;
  seed?: number;
  horizon_h?: number;
  /** of the dough, instead of the bake's own */
  temperature_C?: number;
};

/** the keys of barm.fridge/1 in docs/json.md */
export type FridgeAnswer = {
  schema: "barm.fridge/1";
  name: string;
  pieces: number;
  pieces_at_once: number;
  /** what is known of the house's fridge; empty: nothing */
  with: string;
  /** the record of the house's fridge with what was said and measured; to be saved by who wants it kept */
  keep: EquipmentRecord | null;
  piece_g: number;
  start_C: number;
  set_C: number;
  power_W: number;
  air_peak_C: number;
  air_peak_h: number;
  wanted_C: number;
  within_h: number;
  looked_h: number;
  /** null: not within looked_h */
  cold_after_h: number | null;
  /** on that file: gaps, that it fits no fridge well */
  notes: string[];
  /** root mean square of a probe's readings; null without one */
  air_off_K: number | null;
};

export type FridgeRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  pieces?: number;
  set_C?: number;
  power_W?: number;
  for_h?: number;
  wanted_C?: number;
  within_h?: number;
  /** a probe's CSV of the air from the load on: minutes,celsius */
  probe?: string;
  /** a fridge of the house; else its only one */
  named?: string;
  /** what it learns is to be kept: a name that no fridge of the house has is that of a new one */
  keep?: boolean;
};

/** the next thing to do and the bread */
export type Head = {
  words: string;
  next_words: string;
  /** empty where the oven is the next thing */
  oven_words: string;
  /** of the oven, or of what follows it; empty where nothing does */
  then_words: string;
  /** nine of ten doughs like it would have come to the next step by now, or fewer than half ever will */
  late: boolean;
  next: NextAct | null;
  then: NextAct | null;
  oven: DatedSpread;
};

export type InTheWay = {
  costs: {
    factor: string;
    costs_h: number;
    /** to the quarter of an hour; with bare_h to the quarter they make as_it_is_h to the quarter */
    said_h: number;
  }[];
  as_it_is_h: number | null;
  /** with nothing in the way; with the costs it makes as_it_is_h */
  bare_h: number | null;
  plain_h: number | null;
  at_least: boolean;
};

/** the keys of barm.jar/1 in docs/json.md */
export type JarAnswer = {
  schema: "barm.jar/1";
  /** whose memory it starts from; empty: none */
  culture?: string;
  name: string;
  diameter_mm: number;
  dough_g: number;
  start_mark_mm: number;
  target_volume_ratio?: number;
  chance_never?: number;
  cautions: string[];
};

export type JarRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  /** of the jar, inside; left out: as the bake says */
  diameter_mm?: number;
  height_mm?: number;
  /** in the jar; left out: what suits it */
  dough_g?: number;
  /** where the jar stands; left out: by the bulk */
  room_C?: number;
  draws?: number;
  horizon_h?: number;
  /** of the dough, instead of the bake's own */
  temperature_C?: number;
  seed?: number;
};

export type Job = {
  schema: "barm.job/1";
  id: string;
  ask: string;
  state: "waiting" | "running" | "done" | "failed" | "stopped";
  /** share done */
  progress: number;
  /** when done: what the route of that name answers */
  answer?: Record<string, unknown>;
  problem?: Problem;
};

export type JobRequest = {
  ask: "culture" | "foresee" | "read" | "reach" | "rescue" | "map" | "levain" | "testbake-before" | "testbake-after" | "testbake-next" | "testbake-show" | "more-taste" | "taste-across" | "day" | "day-again";
  /** the body that the route of that name takes */
  with: Record<string, unknown>;
};

/** the keys of barm.label/1 in docs/json.md */
export type LabelAnswer = {
  schema: "barm.label/1";
  name: string;
  draft: string;
  rules_of: "eu" | "uk" | "us";
};

export type LabelRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  rules?: "eu" | "uk" | "us";
  /** such as 50g */
  portion?: string;
  draws?: number;
  /** what such a bread is called, beside its own name */
  legal_name?: string;
  /** who answers for it */
  maker?: string;
  /** of the maker */
  address?: string;
  /** how to keep it */
  storage?: string;
  /** such as L 332 */
  lot?: string;
  /** a day such as 2026-12-03, or same day */
  best_before?: string;
  /** of the primary ingredient */
  origin?: string;
  /** of the sale: en, de, fr, it, es */
  language?: string;
  /** no where the flour has nothing added */
  fortified?: string;
  /** of a loaf */
  slices?: string;
  /** of the pack, such as 160 cm2 */
  largest_side?: string;
  /** in 100 g of the loaf, such as 0.1 g */
  trans_fat?: string;
  /** in 100 g, such as 12 mg */
  cholesterol?: string;
  /** in 100 g, such as 0.2 ug */
  vitamin_d?: string;
  /** in 100 g, such as 1.4 mg */
  iron?: string;
};

export type LarderAnswer = {
  schema: "barm.larder/1";
  ingredients: {
    key: string;
    name: string;
    also: string[];
    group: string;
    allergens: string[];
    note: string;
    known: Record<string, {
      typical_si: number;
      low_si: number;
      high_si: number;
      source: string;
      at: string;
      standing: string;
    }>;
  }[];
};

export type LarderListAnswer = {
  schema: "barm.larder-list/1";
  ingredients: {
    key: string;
    name: string;
    also: string[];
    group: string;
    note: string;
  }[];
};

export type LevainAnswer = {
  schema: "barm.levain/1";
  starter: string;
  temperature_C: number;
  fresh_flour_parts: number;
  water_parts: number;
  ripe_g: number;
  flour_g: number;
  water_g: number;
  peak: Spread;
  tripled: Spread;
  largest_volume_ratio: number;
  ph_at_peak: number;
  feed_at: string | null;
  draws: number;
};

export type LevainRequest = {
  starter?: string;
  flour?: string;
  /** ripe:flour:water, such as 1:2:1 */
  feed?: string;
  need_g?: number;
  peak_in_h?: number;
  fed_at?: string;
  peak_at?: string;
  draws?: number;
  seed?: number;
  horizon_h?: number;
  /** of the dough, instead of the bake's own */
  temperature_C?: number;
};

export type LoafRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  bake: string;
  title: string;
  /** 2026-11-28T06:00:00Z */
  baked_at: string;
  dough_g: number | null;
  baked_g: number | null;
  height_mm: number | null;
  width_mm: number | null;
  length_mm: number | null;
  spring: number | null;
  crumb: string;
  crust: string;
  taste: string;
  scores: Record<string, number>;
};

export type LoafRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  bake: string;
  title?: string;
  /** 2026-11-28T06:00:00Z */
  baked_at: string;
  dough_g?: number | null;
  baked_g?: number | null;
  height_mm?: number | null;
  width_mm?: number | null;
  length_mm?: number | null;
  spring?: number | null;
  crumb?: string;
  crust?: string;
  taste?: string;
  scores?: Record<string, number>;
};

export type LoafRecordList = {
  schema: "barm.loaves/1";
  loaves: LoafRecord[];
  /** without limit and offset */
  total: number;
};

export type MapAnswer = {
  schema: "barm.testbake-map/1";
  /** whose memory it starts from; empty: none */
  culture?: string;
  name: string;
  drink: string;
  share: {
    least: number;
    most: number;
    cells: number;
  };
  up: {
    what: "temperature" | "starter" | "time";
    least: number;
    most: number;
    cells: number;
  };
  within_h: number | null;
  draws: number;
  /** row by row, from the least of both */
  chance: number[];
  error: number;
  now: {
    share: number;
    up: number;
    chance: number;
  };
  contours: {
    level: number;
    closed: boolean;
    /** in cells: column, row */
    points: number[][];
  }[];
};

export type MapRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  drink?: string;
  up?: "temperature" | "starter" | "time";
  /** where the second axis begins: degrees, share of flour, or hours */
  from?: number;
  to?: number;
  within_h?: number;
  draws?: number;
  seed?: number;
};

export type MarkRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  bake: string;
  /** weigh, or the stage's word; into_the_oven and out_of_the_oven without a stage */
  what: string;
  /** the ingredient for weigh */
  of: string;
  stage: number | null;
  poured_g: number | null;
  /** 2026-11-28T06:00:00Z */
  at: string;
};

export type MarkRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  bake: string;
  /** weigh, or the stage's word; into_the_oven and out_of_the_oven without a stage */
  what: string;
  /** the ingredient for weigh */
  of?: string;
  stage?: number | null;
  poured_g?: number | null;
  /** 2026-11-28T06:00:00Z */
  at: string;
};

export type MarkRecordList = {
  schema: "barm.marks/1";
  marks: MarkRecord[];
  /** without limit and offset */
  total: number;
};

export type Mass = {
  ingredient: string;
  mass_g: number;
};

export type MatchAnswer = {
  schema: "barm.match/1";
  name: string;
  like: string;
  met: boolean;
  conflicts: string[];
  working: string[];
  masses: Mass[];
};

export type MatchRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  like?: Bake;
  like_id?: string;
};

export type Mend = {
  needed: boolean;
  possible: boolean;
  words: string;
  /** less of the water that is still to come, so that the dough holds the water it should; null where none makes up for it */
  pour_less: {
    ingredient: string;
    mass_g: number;
    /** what is then to be weighed of it */
    leaves_g: number;
  } | null;
  /** how much heavier the dough is when all is added */
  extra_dough_g: number;
  add: Mass[];
};

export type MendAnswer = {
  schema: "barm.mend/1";
  mend: Mend;
  bowl: Bowl;
};

/** the keys of barm.mix/1 in docs/json.md */
export type MixAnswer = {
  schema: "barm.mix/1";
  name: string;
  wanted_C: number;
  liquid_C: number;
  liquid_of: string[];
  ice_g: number;
  by_friction_K: number;
  by_mixing_alcohol_K: number;
  /** what is known of the house's mixer; empty: nothing */
  with: string;
  /** the record of the house's mixer with what was said and measured; to be saved by who wants it kept */
  keep: EquipmentRecord | null;
  friction_learned: boolean;
  /** what the mixer gives a dough, and by whom that is known */
  friction_words: string;
  by_factors_C: number | null;
  /** why the factor rule has no answer; empty where it has */
  no_rule: string;
  factors_miss_K: number | null;
  cautions: string[];
};

export type MixRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  dough_C?: number;
  flour_C?: number;
  room_C?: number;
  levain_C?: number;
  /** left out: brought to one temperature with the water */
  drinks_C?: number;
  tap_C?: number;
  mixer_min?: number;
  /** of a dough in this mixer, such as 2min 21.5C */
  readings?: string[];
  /** a mixer of the house; else its only one */
  named?: string;
  /** what it learns is to be kept: a name that no mixer of the house has is that of a new one */
  keep?: boolean;
};

/** local days and times */
export type MomentsOfDraws = {
  p10_at: string | null;
  p50_at: string | null;
  p90_at: string | null;
};

export type MoreTasteAnswer = {
  schema: "barm.taste-more/1";
  name: string;
  drink: string;
  currency: string;
  money: number | null;
  by_h: number | null;
  share_of_liquid: number | null;
  ready_h: number | null;
  as_strong: boolean | null;
  line_now: string;
  noticed_now: number;
  alcohol_in_loaf_g: number;
  routes: TasteRoute[];
  cautions: string[];
  draws: number;
};

export type MoreTasteRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  draws?: number;
  seed?: number;
  /** what the oven takes of the weight; left out: the bake's own */
  loss_of_dough?: number;
  /** share of the dough that becomes crust; left out: by the loss */
  crust_of_dough?: number;
  /** left out: the one that brings most alcohol */
  drink?: string;
  /** how much more a loaf may cost */
  money?: number;
  /** as much taste, ready no later: hours after mixing such as 30h, or a local time such as 08:00 */
  by?: string;
};

export type NextAct = {
  p05_h: number | null;
  p10_h: number | null;
  p50_h: number | null;
  p90_h: number | null;
  p95_h: number | null;
  /** local day and time, where the bake has a day */
  p50_at: string | null;
  act: string;
  what: string;
};

/** a piece that proofs in the cold: straight from there into the oven or not, and how long it may stay */
export type OutOfTheCold = {
  words: string;
  /** the cold, of stages */
  stage: number;
  /** in the cold, in the middle */
  planned_h: number;
  /** where a piece stands that is not ready yet */
  room_C: number;
  /** the chance that it goes straight into the oven */
  straight: number;
  /** the chance that it is ripe before it comes out */
  too_long: number;
  /** in the room first; null where 6 h do not do */
  stand: Spread;
  /** in the cold, from going in until it is ripe; null: longer than is looked */
  may_stay: Spread;
};

export type Outlook = {
  ready: Spread;
  past_its_best: Spread;
  /** that it was ready before the last reading */
  chance_already: number;
  /** not within the horizon */
  chance_never: number;
  good_from_h: number | null;
  good_until_h: number | null;
  best_at_h: number | null;
  best_chance: number;
  next_look: {
    at_h?: number;
    range_now_h?: number;
    range_after_h?: number;
  } | null;
  rise_now_ratio: number;
  rise: {
    t_h: number;
    p10_ratio: number;
    p50_ratio: number;
    p90_ratio: number;
  }[];
};

/** the keys of barm.oven/1 in docs/json.md */
export type OvenAnswer = {
  schema: "barm.oven/1";
  name: string;
  form: string;
  dough_g: number;
  /** how much further it can rise as it goes in */
  room_left: OvenRange;
  ripeness: "young" | "right" | "ripe";
  /** how ripe it goes in */
  dough_words: string;
  bake_min: number;
  /** somebody said how long; else until each core is done */
  bake_typed: boolean;
  in_oven_min: OvenMinutes;
  set: {
    from_min: number;
    C: number;
  }[];
  steam_min: number;
  lid_min: number;
  stone: boolean;
  fan: boolean;
  /** one sentence where the vapour may come to a quarter of what burns; else empty */
  vapour_in_short: string;
  loaves: number;
  /** where the loaves do not all fit: each load behind the first, as its dough stands then */
  further_loads: {
    words: string;
    loaves: number;
    /** longer in its last place than the first */
    waited_min: number;
    /** how much further it can rise */
    room_left: OvenRange;
    ripeness: "young" | "right" | "ripe";
    /** volume at the end over that at going in */
    rise: OvenRange;
    /** of its walls as it goes in: as hot as the dial where its power is not known */
    oven_C: number;
    /** than at its dial, until the core is done; 0 where the minutes are typed */
    longer_min: number;
    /** of the middle loaf, after the first load's minutes */
    core_C: number;
  }[];
  /** what is known of the house's oven; empty: nothing */
  with: string;
  learned: {
    numbers: number[];
    /** null where no bake had a probe */
    core_off_K: number | null;
    /** null where none was weighed */
    loss_off: number | null;
  } | null;
  /** on what was measured: gaps, a file that fits no oven well */
  notes: string[];
  /** the record of the house's oven with what was said and measured; to be saved by who wants it kept */
  keep: EquipmentRecord | null;
  core_C: OvenRange;
  done_min: OvenMinutes;
  loss: OvenRange;
  colour: OvenRange;
  colour_words: {
    p10: string;
    p50: string;
    p90: string;
  };
  rise: OvenRange;
  crust_mm: number;
  oven_kWh: number;
  cut_min: OvenMinutes;
  bag_min: OvenMinutes;
  alcohol_in_g: number;
  alcohol_kept: OvenRange;
  vapour: {
    closed: number;
    vented: OvenRange;
    vented_at_min?: number;
    lower_limit: number;
    warn_from: number;
    chance_of_warning?: number;
    loaves_at_once: number;
  };
  course: {
    minutes: number;
    core_C: OvenRange;
    surface_C: OvenRange;
    loss: OvenRange;
    colour?: OvenRange;
    alcohol_kept?: OvenRange;
  }[];
  assumed: string[];
  cautions: string[];
  draws: number;
};

export type OvenInBrief = {
  /** somebody said how long; else until each core is done */
  bake_typed: boolean;
  in_oven_min: OvenMinutes;
  core_C: OvenRange;
  loss: OvenRange;
  /** what is known of the house's oven; empty: nothing */
  with: string;
  /** of each load behind the first, in words */
  further_loads: string[];
  vapour_in_short: string;
};

/** null: not within what was looked at */
export type OvenMinutes = {
  p10: number | null;
  p50: number | null;
  p90: number | null;
};

export type OvenRange = {
  p10: number;
  p50: number;
  p90: number;
};

export type OvenRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  form?: "round" | "long" | "tin" | "flat";
  /** degrees, or a list of [minute, degrees] */
  set_C?: unknown;
  bake_min?: number;
  steam_min?: number;
  lid_min?: number;
  stone?: boolean;
  fan?: boolean;
  loaves?: number;
  holds?: number;
  cavity_L?: number;
  power_kW?: number;
  room_C?: number;
  /** a core probe's CSV of this bake: minutes,celsius */
  probe?: string;
  lighter_by?: number;
  /** an oven of the house; else the one the bake names, or the only one */
  named?: string;
  /** what it learns is to be kept: a name that no oven of the house has is that of a new one */
  keep?: boolean;
  draws?: number;
  seed?: number;
};

export type PairCode = {
  schema: "barm.pair-code/1";
  key: string;
  /** for the other device; empty on no network */
  address: string;
  /** a QR code of address and key, a row of 0 and 1 each */
  squares: string[];
};

export type PairRequest = {
  key: string;
  /** a name to know it by */
  device?: string;
};

export type Paired = {
  schema: "barm.paired/1";
  /** the name given */
  device: string;
};

export type PhotoRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  bake: string | null;
  loaf: string | null;
  culture: string | null;
  /** 2026-11-28T06:00:00Z */
  taken_at: string;
  caption: string;
  width_px: number;
  height_px: number;
  size_bytes: number;
};

export type PhotoRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  bake?: string | null;
  loaf?: string | null;
  culture?: string | null;
  /** 2026-11-28T06:00:00Z */
  taken_at?: string;
  caption?: string;
  width_px?: number;
  height_px?: number;
  size_bytes?: number;
};

export type PhotoRecordList = {
  schema: "barm.photos/1";
  photos: PhotoRecord[];
  /** without limit and offset */
  total: number;
};

export type PriceExample = {
  schema: "barm.price-example/1";
  text: string;
};

export type PricesAnswer = {
  schema: "barm.prices/1";
  name: string;
  currency: string;
  oldest: string;
  newest: string;
  packages: number;
};

export type PricesRequest = {
  /** a price file: docs/price-file.md */
  prices: string;
};

export type Problem = {
  /** urn:barm:problem: and the code */
  type: string;
  title: string;
  status: number;
  /** one sentence: what is wrong and what would be right */
  detail: string;
  /** bad_input, not_found, cannot_be_met, no_convergence, cancelled, conflict, restored, stale_page, not_paired, wrong_host, wrong_origin, wrong_method, wrong_type, too_large, too_long, too_many, too_busy, unavailable, our_fault */
  code: string;
  /** the place in words, such as bake:14:9 */
  where?: string;
  /** JSON pointer into the request, such as /bake/bowl/dry mead */
  field?: string;
  line?: number;
  column?: number;
  /** with conflict and restored: the record as it stands now */
  current?: Record<string, unknown>;
  /** with restored: the epoch of the daybook */
  epoch?: number;
  /** with unavailable, of the daybook: why nothing can be saved */
  saving?: "yes" | "read_only" | "disk_full" | "disk_fails";
};

/** 10, 50, 90 of 100 doughs, of those that get there; null where none does */
export type RangeOfDraws = {
  p10: number | null;
  p50: number | null;
  p90: number | null;
};

export type ReachAnswer = {
  schema: "barm.reach/1";
  /** whose memory it starts from; empty: none */
  culture?: string;
  name: string;
  drink: string;
  within_h: number;
  wanted_chance: number;
  largest_share_of_liquid: number | null;
  chance: number;
  ready_p50_h: number | null;
  plain_p50_h: number | null;
  share_now: number;
  /** of the liquid, with all of the water replaced */
  most_share: number;
  chance_now: number;
  draws: number;
};

export type ReachRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  draws?: number;
  seed?: number;
  horizon_h?: number;
  /** of the dough, instead of the bake's own */
  temperature_C?: number;
  /** left out: the one that brings most alcohol */
  drink?: string;
  within_h?: number;
  chance?: number;
};

export type ReadAnswer = {
  schema: "barm.read/2";
  bowl: BowlAnswer;
  head: Head;
  stages: StageTimes[];
  to_do: ToDo[];
  bread: Bread | null;
  out_of_the_cold: OutOfTheCold | null;
  oven: OvenInBrief | null;
  mixed_at?: string;
  target_volume_ratio: number;
  temperature_C: number;
  horizon_h: number;
  /** whose memory it starts from; empty: none */
  culture?: string;
  start_mark_mm: number | null;
  readings: (Record<string, unknown>)[];
  left_out?: string[];
  notes: string[];
  before: Outlook;
  after: Outlook;
  in_the_way: InTheWay;
  taught: {
    about: string;
    doubt_left?: number;
    over_the_book?: number;
    p10_over_the_book?: number;
    p90_over_the_book?: number;
    words: string;
  }[];
  doubts: string[];
  method: string;
  k_hat?: number;
  r_hat?: number;
  effective_draws: number;
};

export type ReadRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  /** such as 6.5h 52 mm 23.5 C, or 14:30 1.4x pH 4.9; left out: those of bake_id */
  readings?: string[];
  /** readings of bake_id that the daybook has not been told yet; one whose id it has counts once */
  unsent?: ReadingRecordChange[];
  /** the height at mixing, where no reading says it */
  start_mark_mm?: number;
  draws?: number;
  seed?: number;
  horizon_h?: number;
  /** of the dough, instead of the bake's own */
  temperature_C?: number;
};

export type ReadingRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  bake: string;
  /** 2026-11-28T06:00:00Z */
  at: string;
  height_mm: number | null;
  edge_mm: number | null;
  dome_mm: number | null;
  ratio: number | null;
  sample_C: number | null;
  bulk_C: number | null;
  room_C: number | null;
  ph: number | null;
  remark: string;
};

export type ReadingRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  bake: string;
  /** 2026-11-28T06:00:00Z */
  at: string;
  height_mm?: number | null;
  edge_mm?: number | null;
  dome_mm?: number | null;
  ratio?: number | null;
  sample_C?: number | null;
  bulk_C?: number | null;
  room_C?: number | null;
  ph?: number | null;
  remark?: string;
};

export type ReadingRecordList = {
  schema: "barm.readings/1";
  readings: ReadingRecord[];
  /** without limit and offset */
  total: number;
};

/** how far the bulk may go, by what comes after it */
export type ReadyFor = {
  after: string[];
  cold_h: number;
  proof_h: number;
  /** share by which the loaf is still to rise in the oven */
  room_wanted: number;
  bulk_p10_ratio?: number | null;
  bulk_p50_ratio: number | null;
  bulk_p90_ratio?: number | null;
  chance_too_long?: number;
  asked_ratio?: number | null;
  chance_asked_leaves_room?: number;
  at_the_oven: {
    at_h: number;
    volume_ratio: number;
    ph: number;
    room_left: number;
    dough_C: number;
  } | null;
  trade_stiff_mild?: {
    least_ratio: number;
    most_ratio: number;
  };
  trade_liquid_sour?: {
    least_ratio: number;
    most_ratio: number;
  };
  starter_is_stiff?: boolean;
  draws: number;
};

export type RemarkRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  bake: string | null;
  culture: string | null;
  /** 2026-11-28T06:00:00Z */
  at: string;
  text: string;
};

export type RemarkRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  bake?: string | null;
  culture?: string | null;
  /** 2026-11-28T06:00:00Z */
  at: string;
  text: string;
};

export type RemarkRecordList = {
  schema: "barm.remarks/1";
  remarks: RemarkRecord[];
  /** without limit and offset */
  total: number;
};

export type RescueAnswer = {
  schema: "barm.rescue/1";
  name: string;
  mixed_at: string | null;
  now_h: number;
  by_h: number;
  not_before_h: number | null;
  target_volume_ratio: number;
  temperature_C: number;
  rise_now: {
    p10: number;
    p50: number;
    p90: number;
  };
  draws: number;
  imagined: number;
  /** whose memory it starts from; empty: none */
  culture: string;
  rests_on: string;
  give_up_h: number | null;
  give_up: string;
  bowl_money: number | null;
  currency: string;
  /** best first, with words */
  ways: Way[];
  /** all, without words */
  tried: Way[];
  cautions: string[];
};

export type RescueRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  /** hours after mixing, 30h, or local time, 06:00 */
  now: string;
  /** the latest hour of use; left out: 12 h from now */
  by?: string;
  /** the earliest; it is ahead */
  not_before?: string;
  /** what was read of it, as /api/read takes it; left out: those of bake_id */
  readings?: string[];
  /** as /api/read takes them */
  unsent?: ReadingRecordChange[];
  start_mark_mm?: number;
  /** what is seen now, 1.2 for a fifth: one more reading, judged by eye */
  risen?: number;
  /** warm or cold places there are */
  places_C?: number[];
  /** of the dough, instead of the bake's own */
  temperature_C?: number;
  draws?: number;
  seed?: number;
};

export type ScaleRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  title: string;
  low: number;
  high: number;
  low_words: string;
  high_words: string;
};

export type ScaleRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  title: string;
  low?: number;
  high?: number;
  low_words?: string;
  high_words?: string;
};

export type ScaleRecordList = {
  schema: "barm.scales/1";
  scales: ScaleRecord[];
  /** without limit and offset */
  total: number;
};

export type SettingRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  value: string;
};

export type SettingRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  value: string;
};

export type SettingRecordList = {
  schema: "barm.settings/1";
  settings: SettingRecord[];
  /** without limit and offset */
  total: number;
};

/** the keys of barm.simmer/1 in docs/json.md */
export type SimmerAnswer = {
  schema: "barm.simmer/1";
  drink: string;
  left_g: number;
  minutes: number;
  strength_after_percent_vol: number;
  cautions: string[];
};

export type SimmerRequest = {
  drink: string;
  /** 60 % of the weight, or 2 % vol */
  to: string;
  in_g?: number;
  heat_W?: number;
};

export type SolveAnswer = {
  schema: "barm.solve/1";
  name: string;
  aims: {
    aim: string;
    wanted_si: number;
    reached_si: number;
  }[];
  met: boolean;
  conflicts: string[];
  working: string[];
  masses: Mass[];
};

export type SolveRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  /** such as real water=70 % */
  aims: string[];
  /** ingredients whose weight may change */
  free: string[];
};

export type SourceAnswer = {
  schema: "barm.source/1";
  values: {
    name: string;
    value: number;
    unit: string;
    doubt_ln_sd: number;
    standing: string;
    source: string;
    title: string;
    at: string;
    note: string;
    file: string;
  }[];
};

/** quantiles over the doughs imagined, in hours; null is not within the horizon; 4 of 5 lie between p10 and p90 */
export type Spread = {
  p05_h: number | null;
  p10_h: number | null;
  p50_h: number | null;
  p90_h: number | null;
  p95_h: number | null;
  p50_at?: string;
};

export type StageTimes = {
  step: string;
  /** its place in the bake file, 0 the first; null: it is not in the file */
  in_file: number | null;
  done: boolean;
  /** of the oven, 1 the first; null: not of the oven or the rack */
  load: number | null;
  begin: DatedSpread;
  end: DatedSpread;
  /** that a dough gets through it within the horizon */
  chance: number;
  volume_ratio: RangeOfDraws;
  ph: RangeOfDraws;
  room_left: RangeOfDraws;
  dough_C: RangeOfDraws;
};

export type Status = {
  schema: "barm.status/1";
  program: string;
  version: string;
  /** other devices may reach this server */
  lan: boolean;
  /** a browser's secure context: TLS or loopback */
  secure: boolean;
  /** this client may use everything */
  paired: boolean;
  /** a daybook is open */
  daybook: boolean;
  /** the least number of changes and revisions since the daybook was made or a copy was put back; another one means a restore; 0 without a daybook */
  epoch: number;
  /** whether what is saved comes to the disk */
  saving: "yes" | "read_only" | "disk_full" | "disk_fails";
  /** the program was built with its page */
  page: boolean;
  /** local time of the server, 2026-11-28T07:00 */
  now: string;
  /** the same in UTC to a thousandth of a second, 2026-11-28T06:00:00.000Z: hold your own clock against it */
  clock: string;
  /** fingerprints to compare with the terminal, A1:B2:…; for the paired, with --lan */
  certificates: {
    server_sha256: string;
    authority_sha256: string;
    /** where the one that signs is to be had, over https */
    authority: string;
  } | null;
  /** what the browser will not do here, and how to get it; in words for the screen */
  missing: {
    what: string;
    because: string;
    how: string;
  }[];
};

export type SwapAnswer = {
  schema: "barm.swap/1";
  drink: string;
  share_of_liquid: number;
  /** the bake file after the swap */
  text: string;
  form: Record<string, unknown>;
  working: string[];
  bowl: Bowl;
};

export type SwapRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  drink: string;
  share_of_liquid: number;
};

export type TasteAcrossAnswer = {
  schema: "barm.taste-across/1";
  name: string;
  drink: string;
  within_h: number;
  wanted_chance: number;
  wanted_noticed: number;
  share_now: number;
  from: number | null;
  to: number | null;
  points: TastePoint[];
  draws: number;
};

export type TasteAcrossRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  draws?: number;
  seed?: number;
  /** what the oven takes of the weight; left out: the bake's own */
  loss_of_dough?: number;
  /** share of the dough that becomes crust; left out: by the loss */
  crust_of_dough?: number;
  /** left out: the one that brings most alcohol */
  drink?: string;
  within_h?: number;
  chance?: number;
  /** wanted share of tasters who notice the drink */
  noticed?: number;
};

export type TasteAnswer = {
  schema: "barm.testbake-taste/1";
  a: string;
  b: string;
  tasters: number;
  share_who_can_tell: number;
  power_wanted: number;
  alpha: number;
  tasters_needed: number;
  power: number;
  right_needed: number;
  servings: {
    taster: number;
    order: string;
    labels: string[];
    odd: number;
  }[];
  result: {
    right: number;
    p_value: number;
    can_tell: boolean;
    tell: number;
    tell_low: number;
    tell_high: number;
    words: string;
  } | null;
  cautions: string[];
};

export type TasteNote = {
  note: string;
  strongest: string;
  in_drink: number;
  left: TasteRange;
  left_crumb: TasteRange;
  left_crust: TasteRange;
  crumb: TasteRange;
  crust: TasteRange;
  noticed: number;
  level: "gone" | "a hint" | "there" | "loud";
  covered_by: string;
  words: string;
  decides: string[];
};

export type TastePoint = {
  share: number;
  ready: number;
  noticed: number;
  strength: TasteRange;
};

export type TasteRange = {
  p10: number;
  p50: number;
  p90: number;
};

export type TasteRequest = {
  /** 0: only as many as are needed */
  tasters?: number;
  /** answers that were right; left out before the tasting */
  right?: number;
  /** share of people who can tell, if there is a difference worth finding */
  tell?: number;
  power?: number;
  alpha?: number;
  a?: string;
  b?: string;
  seed?: number;
};

export type TasteRoute = {
  means: string;
  what: string;
  times: TasteRange;
  better: number;
  no_difference: boolean;
  noticed: number;
  line: string;
  money_a_loaf: number;
  price_guessed: boolean;
  minutes_a_loaf: number;
  changes_dough: boolean;
  later_h: number | null;
  never_ready: boolean;
  alcohol_in_loaf_g: number;
  cautions: string[];
};

export type TasteSense = {
  sense: string;
  strength: number;
  p10: number;
  p90: number;
  of_drink: number;
  left: number;
  noticed: number;
  noticed_drink: number;
  most: string;
  source: string;
  words: string;
};

/** the keys of barm.testbake-after/1 in docs/json.md */
export type TestBakeAfterAnswer = {
  schema: "barm.testbake-after/1";
  name: string;
};

/** the keys of barm.testbake-before/1 in docs/json.md */
export type TestBakeBeforeAnswer = {
  schema: "barm.testbake-before/1";
  name: string;
};

/** the keys of barm.testbake-next/1 in docs/json.md */
export type TestBakeNextAnswer = {
  schema: "barm.testbake-next/1";
  name: string;
};

/** the keys of barm.testbake-plan/1 in docs/json.md */
export type TestBakePlanAnswer = {
  schema: "barm.testbake-plan/1";
  name: string;
};

export type TestBakeRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  title: string;
  question: string;
  state: "planned" | "live" | "finished" | "given_up";
  document: string;
};

export type TestBakeRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  title: string;
  question?: string;
  state?: "planned" | "live" | "finished" | "given_up";
  document?: string;
};

export type TestBakeRecordList = {
  schema: "barm.test-bakes/1";
  "test-bakes": TestBakeRecord[];
  /** without limit and offset */
  total: number;
};

export type TestBakeRequest = {
  /** a test bake file (docs/testbake-file.md) or the same as an object, without the names of other files */
  test_bake: string | Record<string, unknown>;
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  /** the heights of the jars, as CSV: day,dough,jar,hours,height_mm */
  readings?: string;
  /** of what to bake next: doughs in words; left out: the usual ones */
  candidates?: string[];
  /** share of the speed that is to be shown */
  difference?: number;
  /** of a page to show: what is left out otherwise */
  with?: ("remarks" | "prices")[];
  draws?: number;
  seed?: number;
};

export type TestBakeShowAnswer = {
  schema: "barm.testbake-show/1";
  files: {
    name: string;
    bytes: number;
    /** the file itself (RFC 4648) */
    base64: string;
  }[];
};

export type TestMemberRecord = {
  /** a client may choose it */
  id: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at: string | null;
  test_bake: string;
  bake: string;
  label: string;
};

export type TestMemberRecordChange = {
  /** a client may choose it */
  id?: string;
  /** 0 for a new one; the answer holds the next; send back the one you read */
  revision?: number;
  /** 2026-11-28T06:00:00Z */
  saved_at?: string;
  /** 2026-11-28T06:00:00Z */
  deleted_at?: string | null;
  test_bake: string;
  bake: string;
  label?: string;
};

export type TestMemberRecordList = {
  schema: "barm.test-members/1";
  "test-members": TestMemberRecord[];
  /** without limit and offset */
  total: number;
};

export type ThinAnswer = {
  schema: "barm.thin/1";
  drink: string;
  strength_percent_vol: number;
  drink_g: number;
  water_g: number;
  drink_mL: number;
  water_mL: number;
  together_mL: number;
  working: string[];
};

export type ThinRequest = {
  drink: string;
  /** such as 10 % vol */
  strength: string;
  need_g: number;
};

/** the keys of barm.till/2 in docs/json.md; money is text in the currency's own unit, 4.17 */
export type TillAnswer = {
  schema: "barm.till/2";
  name: string;
};

export type TillRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  /** a price file: docs/price-file.md; left out: the daybook's setting price-file */
  prices?: string;
  /** what buyers say, as CSV */
  buyers?: string;
  /** of the net price, such as 35 %; left out: as the price file has it */
  margin?: string;
  /** on top of the cost, such as 60 % */
  mark_up?: string;
  /** what an hour is to earn, such as 28 EUR */
  hourly_pay?: string;
  /** on the shelf, such as 7.90 EUR */
  asked?: string;
  /** how much a bottle goes up, such as 2 EUR */
  price_rise?: string;
  most_loaves?: number;
};

export type ToDo = {
  p05_h: number | null;
  p10_h: number | null;
  p50_h: number | null;
  p90_h: number | null;
  p95_h: number | null;
  /** local day and time, where the bake has a day */
  p50_at: string | null;
  act: string;
  what: string;
  done: boolean;
  /** of the oven, 1 the first; null: of all of it */
  load: number | null;
};

export type Today = {
  /** the day whose breads the weights are for, 2026-11-28; empty when there are none */
  weigh_day?: string;
  schema: "barm.today/1";
  /** 2026-11-28T06:00:00Z */
  now: string;
  /** the daybook is a demonstration */
  invented: boolean;
  /** what is odd about the machine's clock, in words */
  clock: string | null;
  /** what is next by the plan the house goes by (setting day-plan) */
  day: {
    name: string;
    bread: string;
    next: {
      bake: string;
      step: string;
      begins: string;
      ends: string;
    }[];
    /** what moved, or does not hold, since one of its bakes was read or ticked off; empty where none was */
    anew: string[];
  } | null;
  doughs: {
    /** its id */
    bake: string;
    title: string;
    state: string;
    /** 2026-11-28T06:00:00Z */
    mixed_at: string | null;
    /** the next thing to do and the bread, with their ranges, in words */
    head: string;
    /** the next thing to do, in words */
    next: string;
    /** 2026-11-28T06:00:00Z */
    next_at: string | null;
    /** 2026-11-28T06:00:00Z */
    ready_p10_at: string | null;
    /** 2026-11-28T06:00:00Z */
    ready_p50_at: string | null;
    /** 2026-11-28T06:00:00Z */
    ready_p90_at: string | null;
    /** in words */
    ready_at: string;
    /** beyond its file: 4 readings and what Sluice has taught; may be empty */
    rests_on: string;
    /** late or stuck: 9 of 10 doughs like it would be ready by now, or half of them never get there */
    late: boolean;
  }[];
  levains: {
    /** its id */
    culture: string;
    title: string;
    /** 2026-11-28T06:00:00Z */
    fed_at: string | null;
    /** 2026-11-28T06:00:00Z */
    peak_p10_at: string | null;
    /** 2026-11-28T06:00:00Z */
    peak_at: string | null;
    /** 2026-11-28T06:00:00Z */
    peak_p90_at: string | null;
    next: string;
    /** 2026-11-28T06:00:00Z */
    next_at: string | null;
    /** what planned doughs take of it: 150 g Tue 00:30; a feeding makes 120 g; empty when none does */
    wanted: string;
  }[];
  feed_tonight: string[];
  buy: string[];
  /** today's bakes without a drink */
  ordinary: string[];
  /** what those take together */
  weigh: {
    ingredient: string;
    mass_g: number;
  }[];
};

export type TrashList = {
  schema: "barm.trash/1";
  trash: {
    kind: "bake" | "culture" | "feeding" | "bottle" | "reading" | "mark" | "photo" | "loaf" | "scale" | "remark" | "setting" | "test_bake" | "test_member" | "equipment";
    id: string;
    title: string;
    /** 2026-11-28T06:00:00Z */
    deleted_at: string;
  }[];
};

export type Version = {
  bake: string;
  revision: number;
  /** 2026-11-28T06:00:00Z */
  saved_at: string;
  title: string;
  toml: string;
};

export type VersionList = {
  schema: "barm.versions/1";
  versions: Version[];
};

export type WaterAnswer = {
  schema: "barm.water/1";
  water_C: number;
  ice_g: number | null;
};

export type WaterRequest = {
  dough_C: number;
  flour_C: number;
  room_C: number;
  levain_C?: number;
  friction_C?: number;
  water_g?: number;
  tap_C?: number;
};

export type Way = {
  way: string;
  place_C?: number | null;
  add: {
    flour_g: number;
    water_g: number;
    salt_g: number;
    levain_g: number;
    yeast_g: number;
  };
  chance_in_time: number;
  ready: Spread;
  /** nine of ten such doughs are */
  ready_now: boolean;
  past_its_best?: Spread;
  too_warm?: boolean;
  alcohol_in_water_before_g_per_L?: number;
  alcohol_in_water_after_g_per_L?: number;
  speed_of_gas?: number;
  what?: string;
  reason?: string;
  cost?: string;
  money?: number | null;
  advised?: boolean;
};

export type WhenAnswer = {
  schema: "barm.when/1";
  /** whose memory it starts from; empty: none */
  culture?: string;
  name: string;
  /** local day and time */
  oven_at: string;
  mix: {
    /** of being ready then and not past its best */
    chance: number;
    possible: boolean;
    mix_from_at: string | null;
    mix_to_at: string | null;
    /** null: the bake has no levain of its own */
    feed_from_at: string | null;
    feed_to_at: string | null;
  }[];
  best_chance: number;
  best_mix_at: string;
  best_feed_at: string | null;
  /** of each load; empty without an [oven] */
  bread: {
    in: MomentsOfDraws;
    out: MomentsOfDraws;
    cut: MomentsOfDraws;
    bag: MomentsOfDraws;
  }[];
  horizon_h: number;
  draws: number;
};

export type WhenRequest = {
  bake?: Bake;
  /** one of the daybook, as it stands; with bake beside it: bake is what is not saved of it yet */
  bake_id?: string;
  /** start from the memory of this culture of the daybook; empty: from none; left out: from that of bake_id */
  culture_id?: string;
  /** what was really poured, by ingredient; over what the bake says */
  weighed_g?: Record<string, number>;
  /** local: 2026-11-29T08:30; Sun 08:30 or 08:30: the next one */
  oven: string;
  draws?: number;
  horizon_h?: number;
  /** of the dough, instead of the bake's own */
  temperature_C?: number;
  seed?: number;
};
