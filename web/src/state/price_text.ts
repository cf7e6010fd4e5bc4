// The price file as a form: its entries with the line of each value, so that a field changes one value and leaves the rest of the
// text, remarks too, as it is. What a value means, only the server decides.

export interface Entry {
  /** "buy", "work", "work.step", "oven"; empty for the top of the file. */
  section: string;
  /** The lines of the text from its head to before the next; the top has no head. */
  from: number;
  to: number;
  values: Readonly<Record<string, string>>;
}

const head = /^\s*\[\[?\s*([\w.]+)\s*\]\]?/;
const assigned = /^(\s*([\w-]+)\s*=\s*)("(?:[^"\\]|\\.)*"|[^#]*?)(\s*(?:#.*)?)$/;

const plain_of = (value: string) => (value.startsWith('"') ? (JSON.parse(value) as string) : value.trim());

/** A date and a number stand bare in the file, a word for yes or no too. */
const written = (value: string) => (/^(-?\d+(\.\d+)?|\d{4}-\d{2}-\d{2}|true|false)$/.test(value) ? value : JSON.stringify(value));

export function entries(text: string): Entry[] {
  const lines = text.split("\n");
  const found: Entry[] = [];
  let here: Entry & { values: Record<string, string> } = { section: "", from: 0, to: 0, values: {} };
  const close = (at: number) => found.push({ ...here, to: at });
  lines.forEach((line, at) => {
    const section = head.exec(line)?.[1];
    if (section !== undefined) {
      close(at);
      here = { section, from: at, to: at, values: {} };
      return;
    }
    const [, , key, value] = assigned.exec(line) ?? [];
    if (key !== undefined && value !== undefined && value !== "") {
      try {
        here.values[key] = plain_of(value);
      } catch {
        // Not a text as the file has it: the server says so when it is saved.
      }
    }
  });
  close(lines.length);
  return found;
}

/** The text with one value changed, added at the end of its entry, or taken out. */
export function with_value(text: string, entry: Pick<Entry, "section" | "from" | "to">, key: string, value: string | undefined): string {
  const lines = text.split("\n");
  for (let at = entry.from; at < entry.to; at++) {
    const [, before, name, , after] = assigned.exec(lines[at] ?? "") ?? [];
    if (name !== key) continue;
    if (value === undefined) lines.splice(at, 1);
    else lines[at] = `${before}${written(value)}${after}`;
    return lines.join("\n");
  }
  if (value === undefined) return text;
  let end = entry.to;
  while (end > entry.from + 1 && (lines[end - 1] ?? "").trim() === "") end--;
  lines.splice(end, 0, `${key} = ${written(value)}`);
  return lines.join("\n");
}

/** The text with an entry more, after the last of its kind or at the end. */
export function with_entry(text: string, section: string, values: Readonly<Record<string, string>>, many = true): string {
  const last = entries(text).filter((e) => e.section === section).at(-1);
  const lines = text.split("\n");
  const title = many ? `[[${section}]]` : `[${section}]`;
  const block = ["", title, ...Object.entries(values).map(([key, value]) => `${key} = ${written(value)}`)];
  let at = last?.to ?? lines.length;
  while (at > 0 && (lines[at - 1] ?? "").trim() === "") at--;
  lines.splice(at, 0, ...block);
  return lines.join("\n");
}

export function without_entry(text: string, entry: Pick<Entry, "from" | "to">): string {
  const lines = text.split("\n");
  lines.splice(entry.from, entry.to - entry.from);
  return lines.join("\n");
}
