import { type Form, lines } from "./bake";

/** What differs between two recipes, as lines of text. */
export function differences(mine: Form, theirs: Form): { what: string; mine: string; theirs: string }[] {
  const told = (value: unknown) => (value === undefined ? "not there" : typeof value === "string" ? value : JSON.stringify(value));
  const out: { what: string; mine: string; theirs: string }[] = [];
  const my_lines = new Map(lines(mine).map((l) => [l.name, l.amount]));
  const their_lines = new Map(lines(theirs).map((l) => [l.name, l.amount]));
  for (const name of new Set([...my_lines.keys(), ...their_lines.keys()])) {
    if (my_lines.get(name) !== their_lines.get(name)) {
      out.push({ what: name, mine: told(my_lines.get(name)), theirs: told(their_lines.get(name)) });
    }
  }
  for (const key of new Set([...Object.keys(mine), ...Object.keys(theirs)])) {
    if (key === "bowl") continue;
    if (JSON.stringify(mine[key]) !== JSON.stringify(theirs[key])) out.push({ what: key, mine: told(mine[key]), theirs: told(theirs[key]) });
  }
  return out;
}
