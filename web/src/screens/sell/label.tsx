// The label: a draft by the law of a place, each line with the rule it follows and what is not known.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Refusal } from "../../api/ask";
import type { LabelAnswer, LabelLine, LawRule, Piece, Rules } from "../../api/shop";
import { Choice } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { Failed, Waiting } from "../../parts/states";
import { ago, from_utc } from "../../say/clock";
import { useHabits } from "../../say/say";
import { useAsked } from "../../state/asked";
import { give_up, useTyping } from "../../state/drafts";
import { can_undo } from "../../state/undo";
import { type LabelFields, LabelFieldsForm } from "./label_fields";
import { Nutrition, Working } from "./label_tables";
import { written } from "../../say/numbers";

const laws: readonly (readonly [Rules, string])[] = [
  ["eu", "European Union"],
  ["uk", "United Kingdom"],
  ["us", "United States"],
];
const languages = [
  ["en", "English"],
  ["de", "German"],
  ["fr", "French"],
  ["it", "Italian"],
  ["es", "Spanish"],
] as const;
const portions: readonly (readonly [string, string])[] = [["", "none"], ...["30g", "40g", "50g", "80g", "100g"].map((p) => [p, p.replace("g", " g")] as const)];
const widths = ["40mm", "50mm", "60mm", "80mm", "100mm"] as const;

export function LabelSheet({ id }: { id: string }) {
  const [rules, set_rules] = useState<Rules>("eu");
  const [portion, set_portion] = useState("");
  const [language, set_language] = useState<(typeof languages)[number][0] | undefined>(undefined);
  const typing = useTyping<LabelFields>(`label.${id}`, {});
  const typed = typing.value;
  const [width, set_width] = useState<(typeof widths)[number]>("60mm");
  const said: LabelFields = language === undefined ? typed : { ...typed, language };
  const held = useAsked<LabelAnswer>("/api/label", { bake_id: id, rules, ...(portion === "" ? {} : { portion }), ...said });
  const label = held.answer;
  const us = rules === "us";
  const wrong = (key: string) => (held.error instanceof Refusal && held.error.problem.field === `/${key}` ? held.error.problem.detail : undefined);
  const at_a_field = held.error instanceof Refusal && Object.keys(said).some((key) => wrong(key) !== undefined);
  const sheet = new URLSearchParams({ rules, width: "", ...(portion === "" ? {} : { portion }), ...said });
  const habits = useHabits();
  const height = (mm: number) => written(String(Number(mm.toFixed(2))), habits);
  return (
    <div class="stack">
      <Fold title="Law and print" fact={[named(laws, rules), rules === "eu" ? named(languages, language ?? label?.language ?? "en") : "", width.replace("mm", " mm wide")].filter(Boolean).join(", ")}>
        <div class="pair">
          <Choice label="By the law of" value={rules} options={laws} give={set_rules} />
          {rules === "eu" && <Choice label="Language of the sale" value={language ?? label?.language ?? "en"} options={languages} give={set_language} />}
          <Choice label={us ? "Serving" : "Values by the portion too"} value={portion} options={us ? [["", "as the law has it"] as const, ...portions.slice(1)] : portions} give={set_portion} />
          <Choice label="Width of the printed label" value={width} options={widths.map((w) => [w, w.replace("mm", " mm")] as const)} give={set_width} />
        </div>
        {label && (
          <p class="quiet small">
            The law asks for a small {us ? "o" : "x"} at least {height(label.least_x_height_mm)} mm high
            {label.small_pack_x_height_mm !== label.least_x_height_mm && ` (${height(label.small_pack_x_height_mm)} mm on a small pack)`}; figures of the
            weight {height(label.weight_height_mm)} mm. The sheet keeps to it.
          </p>
        )}
      </Fold>
      <LabelFieldsForm id={id} rules={rules} fields={typed} known={label?.fields ?? {}} wrong={wrong} give={(key, text) => typing.set({ [key]: text })} />
      {typing.kept_at !== undefined && (
        <div class="row">
          <p class="quiet small grow">
            What was typed into these fields, last {ago(from_utc(typing.kept_at))}, stands over the bake file. Look at lot and date again for each bake.
          </p>
          <button type="button" onClick={() => can_undo("The fields are as the bake file has them.", give_up(`label.${id}`))}>
            As the bake file has it
          </button>
        </div>
      )}
      {held.error && !at_a_field ? <Failed error={held.error} /> : null}
      {!label && !held.error && <Waiting what="Writing the label…" />}
      {label && (
        <>
          <p class="note small">{label.draft}</p>
          {label.missing.length > 0 && (
            <section class="note stack tight" aria-labelledby="missing">
              <h2 id="missing">Not to be printed yet</h2>
              <p>Still missing:</p>
              <ul>
                {label.missing.map((one) => (
                  <li key={one}>{one}</li>
                ))}
              </ul>
            </section>
          )}
          <div class="row">
            <a class="button main" href={sheet_at(id, sheet, width)} target="_blank" rel="noopener">
              The label, to print
            </a>
          </div>
          <section aria-labelledby="lines">
            <h2 id="lines">On the label</h2>
            {label.lines.filter(says_something).map((line) => (
              <Line key={line.field + line.text} line={line} below={line.field === "nutrition" && <Nutrition label={label} />}>
                {line.field === "ingredients" && <Working label={label} />}
              </Line>
            ))}
          </section>
          <Lines title="Not filled in yet" lines={label.lines.filter((line) => !says_something(line))} />
          <Lines title="Ask before you print" lines={label.questions} />
          {label.remembered.length > 0 && <Remembered rules={label.remembered} />}
        </>
      )}
    </div>
  );
}

function sheet_at(id: string, asked: URLSearchParams, width: string): string {
  asked.set("width", width);
  return `/api/bakes/${id}/label.html?${asked.toString()}`;
}

const harms = ["", "somebody can be hurt", "a buyer is misled", "a form"];

/** The rules that were not read again, those first whose error can hurt. */
const Remembered = ({ rules }: { rules: readonly LawRule[] }) => (
  <Fold title="Rules from memory" fact={`${rules.length} to be looked up, the worst first`} seldom>
    <ul class="small">
      {rules.map((rule) => (
        <li key={rule.id}>
          {rule.law}: {rule.says} (when wrong: {harms[rule.harm]})
        </li>
      ))}
    </ul>
  </Fold>
);

const named = <Key extends string>(all: readonly (readonly [Key, string])[], key: Key) => all.find(([one]) => one === key)?.[1] ?? key;
const words = (field: string) => field.charAt(0).toUpperCase() + field.slice(1).replaceAll("_", " ");

/** What a line says on the label: the nutrition's table, or words. */
const says_something = (line: LabelLine) => line.field === "nutrition" || line.text.trim() !== "";

/** One line of the label as it is printed, `below` it its table; behind it what is not known of it, and the rules. */
function Line({ line, below, children }: { line: LabelLine; below?: ComponentChildren; children?: ComponentChildren }) {
  return (
    <>
      <details class="label-line">
        <summary>
          <span class="grow">
            <h3>
              {words(line.field)}
              {line.unknown.length > 0 && says_something(line) && " · not all is known"}
            </h3>
            {line.field !== "nutrition" && <Pieces pieces={line.pieces} />}
          </span>
        </summary>
        <div class="stack tight">
          {children}
          {line.unknown.map((what) => (
            <p key={what} class="note small">
              Not known: {what}
            </p>
          ))}
          <ul class="small">
            {line.rules.map((rule) => (
              <li key={rule.id}>
                {rule.law}: {rule.says}
                {rule.standing === "remembered" && " (from memory: look it up)"}
              </li>
            ))}
          </ul>
        </div>
      </details>
      {below}
    </>
  );
}

const Lines = ({ title, lines }: { title: string; lines: readonly LabelLine[] }) =>
  lines.length === 0 ? null : (
    <Fold title={title} fact={lines.map((line) => words(line.field).toLowerCase()).join(", ")} seldom>
      {lines.map((line) => (
        <Line key={line.field + line.text} line={line} />
      ))}
    </Fold>
  );

const Pieces = ({ pieces }: { pieces: readonly Piece[] }) => (
  <>{pieces.map((piece, i) => (piece.strong ? <strong key={i}>{piece.text}</strong> : <span key={i}>{piece.text}</span>))}</>
);
