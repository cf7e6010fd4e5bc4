// What is done to a drink before it goes in: let go flat, something steeped in it, simmered down, thinned. It stands in the bowl by a name of its own, and
// what it was made of is in [prepared] of the bake file.
import { type Form, type Table, lines, set, set_stages, stages } from "./bake";

/** As the bake file writes it; empty is not done. */
export interface Preparing {
  flat: boolean;
  /** "raisins", with a dose: neither without the other. */
  steep: string;
  /** "5 %" of the drink's weight. */
  dose: string;
  /** "60 %" of its weight, or "1 % vol". */
  simmer_to: string;
  /** "6 % vol". */
  thin_to: string;
}

export const as_bought: Preparing = { flat: false, steep: "", dose: "", simmer_to: "", thin_to: "" };

const table = (value: unknown) => (typeof value === "object" && value !== null ? value : {}) as Readonly<Record<string, Table>>;

/** The drink that a line of the bowl was made of: the line itself where nothing is done to it. */
export const made_of = (form: Form, line: string): string => String(table(form.prepared)[line]?.of ?? line);

export function preparing(form: Form, line: string): Preparing {
  const own = table(form.prepared)[line] ?? {};
  return { flat: own.flat === true, steep: String(own.steep ?? ""), dose: String(own.dose ?? ""), simmer_to: String(own.simmer_to ?? ""), thin_to: String(own.thin_to ?? "") };
}

/** "flat, simmered stout". */
export function prepared_name(of: string, { flat, steep, simmer_to, thin_to }: Preparing): string {
  const done = [flat && "flat", steep && "steeped", simmer_to && "simmered", thin_to && "thinned"].filter(Boolean);
  return done.length > 0 ? `${done.join(", ")} ${of}` : of;
}

/** The same bake with the drink of that line prepared so: its line has another name wherever the file says it. */
export function prepare(form: Form, line: string, how: Preparing): Form {
  const of = made_of(form, line);
  const name = prepared_name(of, how);
  if (name !== line && lines(form).some((other) => other.name === name)) return form;
  const renamed = (key: string) => (key === line ? name : key);
  const keys_renamed = (of_it: unknown) => Object.fromEntries(Object.entries(table(of_it)).map(([key, value]) => [renamed(key), value]));
  const { [line]: before, ...others } = table(form.prepared);
  const { of: _, flat: _flat, steep: _steep, dose: _dose, simmer_to: _simmer, thin_to: _thin, ...rest } = before ?? {};
  const done = { ...(how.flat && { flat: true }), ...(how.steep && { steep: how.steep, dose: how.dose }), ...(how.simmer_to && { simmer_to: how.simmer_to }), ...(how.thin_to && { thin_to: how.thin_to }) };
  const all = name === of ? others : { ...others, [name]: { of, ...rest, ...done } };
  let out = set(form, "bowl", keys_renamed(form.bowl));
  if (form.weighed !== undefined) out = set(out, "weighed", keys_renamed(form.weighed));
  out = set(out, "prepared", Object.keys(all).length > 0 ? all : undefined);
  return set_stages(out, stages(out).map((stage) => (Array.isArray(stage.order) ? { ...stage, order: stage.order.map(String).map(renamed) } : stage)));
}
