// A test bake on the page: its document, and what of it is sent to the server, which alone knows what words mean.
import type { JarLook, TestDocument } from "../api/tests";

export const fresh = (base_id: string, today: string, seed: number): TestDocument => ({
  base_id,
  doughs: [
    { name: "as it is", make: [] },
    { name: "plain water", make: ["plain"] },
  { name: "plain, brushed when cold", make: ["plain"] },
  ],
  days: [today],
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

/** Words for the doughs a baker most often wants beside the dough in question. */
export const usual_doughs: readonly { name: string; make: string[] }[] = [
  { name: "plain water", make: ["plain"] },
  { name: "alcohol alone", make: ["plain", "match alcohol with neutral spirit"] },
  { name: "acid alone", make: ["plain", "match acid with citric acid"] },
  { name: "sulphite alone", make: ["plain", "match sulphite with potassium metabisulphite"] },
  { name: "sugar alone", make: ["plain", "match sugar"] },
  { name: "alcohol and acid", make: ["plain", "match alcohol with neutral spirit", "match acid with citric acid"] },
];
