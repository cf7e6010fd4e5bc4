// A test bake on the page: its document, and what of it is sent to the server, which alone knows what words mean.
import type { JarLook, TestDocument } from "../api/test_bakes";

export const fresh = (base_id: string, today: string, seed: number, causes: readonly string[] = []): TestDocument => ({
  base_id,
  causes: [...causes],
  doughs: doughs_for(causes),
  days: [today],
  mixed: {},
  jars: 1,
  jar_mm: 60,
  amount_g: 300,
  within_h: 14,
  seed,
  remark: "",
  looks: [],
});

/** Reads what was kept; what is missing in an older document is filled as in a fresh one. */
export function document_from(text: string, base_id: string, today: string): TestDocument {
  const empty = fresh(base_id, today, 1);
  try {
    const kept: unknown = JSON.parse(text);
    return typeof kept === "object" && kept !== null ? { ...empty, ...(kept as Partial<TestDocument>) } : empty;
  } catch {
    return empty;
  }
}

const of_same_jar = (a: JarLook, b: JarLook) => a.day === b.day && a.dough === b.dough && a.repeat === b.repeat && a.hours === b.hours;

/** The looks with one more, in the place of what was read of that jar at that hour; or without it. */
export function looks_with(looks: readonly JarLook[], look: JarLook, taken_out: boolean): JarLook[] {
  const others = looks.filter((other) => !of_same_jar(other, look));
  return taken_out ? others : [...others, look];
}

/** The same in a document of the daybook, of which nothing else is touched. */
export function with_look(document: string, look: JarLook, taken_out: boolean): string {
  const all = JSON.parse(document) as Partial<TestDocument>;
  return JSON.stringify({ ...all, looks: looks_with(all.looks ?? [], look, taken_out) });
}

/** The test bake file as an object, as the server takes it. */
export function file_of(title: string, question: string, doc: TestDocument): Record<string, unknown> {
  return {
    name: title,
    question,
    ...(doc.remark ? { remark: doc.remark } : {}),
    ...(doc.causes.length ? { causes: doc.causes } : {}),
    amount: `${doc.amount_g} g`,
    days: doc.days,
    jars: doc.jars,
    jar: `${doc.jar_mm} mm`,
    within: `${doc.within_h} h`,
    seed: doc.seed,
    dough: doc.doughs.map(({ name, make }) => ({ name, ...(make.length ? { make } : {}) })),
  };
}

const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

/** The looks as the table of readings (RFC 4180). */
export function csv_of(looks: readonly JarLook[]): string {
  const rows = looks.map((l) => [l.day, quoted(l.dough), l.repeat, l.hours, l.height_mm].join(","));
  return ["day,dough,jar,hours,height_mm", ...rows].join("\n") + "\n";
}

/** What a question about the test bake sends. */
export function asking(title: string, question: string, doc: TestDocument) {
  return {
    test_bake: file_of(title, question, doc),
    bake_id: doc.base_id,
    ...(doc.looks.length ? { readings: csv_of(doc.looks) } : {}),
  };
}

/** What may hold a dough back: as the server names it, as a baker says it, and the step that brings as much of it into plain water. */
export const causes: readonly { cause: string; words: string; match?: string }[] = [
  { cause: "alcohol", words: "alcohol", match: "match alcohol with neutral spirit" },
  { cause: "sulphite", words: "sulphite", match: "match sulphite" },
  { cause: "acid", words: "acid", match: "match acid" },
  { cause: "sugar", words: "sugar", match: "match sugar" },
  { cause: "sorbate", words: "preservative", match: undefined },
  { cause: "hops", words: "hops", match: undefined },
];

export const cause_words = (cause: string) => causes.find((c) => c.cause === cause)?.words ?? cause;

type Dough = TestDocument["doughs"][number];

/**
 * The doughs that tell these causes apart: the dough in question, plain water, and for each cause one that holds it alone. What
 * cannot be bought to be stirred in is asked by a dough that holds all the rest.
 */
export function doughs_for(asked: readonly string[]): Dough[] {
  const ticked = causes.filter((c) => asked.includes(c.cause));
  const alone = ticked.flatMap(({ words, match }) => (match ? [{ name: `${words} alone`, make: ["plain", match] }] : []));
  const not_bought = ticked.filter((c) => c.match === undefined);
  const all_but = not_bought.length
    ? [{ name: `all but the ${not_bought.map((c) => c.words).join(" and the ")}`, make: ["plain", ...causes.flatMap((c) => c.match ?? [])] }]
    : [];
  return [{ name: "as it is", make: [] }, { name: "plain water", make: ["plain"] }, ...alone, ...all_but];
}

const same_dough = (a: Dough, b: Dough) => a.name === b.name && a.make.join("\n") === b.make.join("\n");

/** A cause ticked or not: doughs that its tick made come and go, the baker's own stay. */
export function with_cause(doc: Pick<TestDocument, "causes" | "doughs">, cause: string, asked: boolean): Pick<TestDocument, "causes" | "doughs"> {
  const others = doc.causes.filter((c) => c !== cause);
  const next = asked ? causes.map((c) => c.cause).filter((c) => c === cause || others.includes(c)) : others;
  const [made, to_make] = [doughs_for(doc.causes), doughs_for(next)];
  const kept = doc.doughs.filter((d) => !made.some((m) => same_dough(m, d)) || to_make.some((m) => same_dough(m, d)));
  const more = to_make.filter((m) => !kept.some((d) => d.name === m.name) && !made.some((d) => same_dough(m, d)));
  return { causes: next, doughs: [...kept, ...more] };
}
