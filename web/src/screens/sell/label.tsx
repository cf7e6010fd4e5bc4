// The label: a draft by the law of a place, each line with the rule it follows and what is not known.
import { useState } from "preact/hooks";
import { Refusal } from "../../api/ask";
import type { LabelAnswer, LabelLine, LawRule, Piece, Rules } from "../../api/shop";
import { Choice } from "../../parts/field";
import { Failed, Waiting } from "../../parts/states";
import { Wide } from "../../parts/wide";
import { ago, from_utc } from "../../say/clock";
import { two_figures, useHabits, weight } from "../../say/say";
import { useAsked } from "../../state/asked";
import { give_up, useTyping } from "../../state/drafts";
import { can_undo } from "../../state/undo";
import { type LabelFields, LabelFieldsForm } from "./label_fields";
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
      <div class="pair">
        <Choice label="By the law of" value={rules} options={laws} give={set_rules} />
        {rules === "eu" && <Choice label="Language of the sale" value={language ?? label?.language ?? "en"} options={languages} give={set_language} />}
        <Choice label={us ? "Serving" : "Values by the portion too"} value={portion} options={us ? [["", "as the law has it"] as const, ...portions.slice(1)] : portions} give={set_portion} />
        <Choice label="Width of the printed label" value={width} options={widths.map((w) => [w, w.replace("mm", " mm")] as const)} give={set_width} />
      </div>
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
          <p class="note">{label.draft}</p>
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
          <section class="stack tight" aria-labelledby="lines">
            <h2 id="lines">On the label</h2>
            {label.lines.map((line) => (
              <Line key={line.field + line.text} line={line}>
                {line.field === "nutrition" ? <Nutrition label={label} /> : line.field === "ingredients" ? <Working line={line} label={label} /> : null}
              </Line>
            ))}
          </section>
          {label.questions.length > 0 && (
            <details class="sheet">
              <summary>Ask before you print: {label.questions.map((line) => words(line.field).toLowerCase()).join(", ")}</summary>
              <div class="stack tight">
                {label.questions.map((line) => (
                  <Line key={line.field + line.text} line={line} />
                ))}
              </div>
            </details>
          )}
          {label.remembered.length > 0 && <Remembered rules={label.remembered} />}
          <div class="row">
            <a class="button main" href={sheet_at(id, sheet, width)} target="_blank" rel="noopener">
              The label, to print
            </a>
          </div>
          <p class="quiet small">
            The law asks for a small {us ? "o" : "x"} at least {height(label.least_x_height_mm)} mm high
            {label.small_pack_x_height_mm !== label.least_x_height_mm && ` (${height(label.small_pack_x_height_mm)} mm on a small pack)`}; figures of the
            weight {height(label.weight_height_mm)} mm. The sheet keeps to it.
          </p>
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
  <details class="sheet">
    <summary>From memory: to be looked up, the worst first</summary>
    <ul class="small">
      {rules.map((rule) => (
        <li key={rule.id}>
          {rule.law}: {rule.says} (when wrong: {harms[rule.harm]})
        </li>
      ))}
    </ul>
  </details>
);

const words = (field: string) => field.charAt(0).toUpperCase() + field.slice(1).replaceAll("_", " ");

function Line({ line, children }: { line: LabelLine; children?: preact.ComponentChildren }) {
  return (
    <article class="sheet stack tight">
      <h3>{words(line.field)}</h3>
      {children || (
        <p>
          <Pieces pieces={line.pieces} />
        </p>
      )}
      {line.unknown.map((what) => (
        <p key={what} class="note small">
          Not known: {what}
        </p>
      ))}
      {line.rules.length > 0 && (
        <details>
          <summary>
            <span class="small">{line.rules.length === 1 ? "The rule" : `The ${line.rules.length} rules`}</span>
          </summary>
          <ul class="small">
            {line.rules.map((rule) => (
              <li key={rule.id}>
                {rule.law}: {rule.says}
                {rule.standing === "remembered" && " (from memory: look it up)"}
              </li>
            ))}
          </ul>
        </details>
      )}
    </article>
  );
}

const Pieces = ({ pieces }: { pieces: readonly Piece[] }) => (
  <>{pieces.map((piece, i) => (piece.strong ? <strong key={i}>{piece.text}</strong> : <span key={i}>{piece.text}</span>))}</>
);

/** The list, and how its order comes about: used, what the order goes by, what is left in the loaf. */
function Working({ line, label }: { line: LabelLine; label: LabelAnswer }) {
  const habits = useHabits();
  return (
    <>
      <p>
        <Pieces pieces={line.pieces} />
      </p>
      <details>
        <summary>
          <span class="small">How the order comes about</span>
        </summary>
        <Wide name="Working of the list">
          <table class="nutrition">
            <caption class="unseen">The order of the list, worked out</caption>
            <thead>
              <tr>
                {["in this order", "weighed", "counted", "left in the loaf"].map((column, i) => (
                  <th key={column} scope="col" class={i > 0 ? "number" : ""}>
                    {column}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {label.ingredients.items.map((item) => (
                <tr key={item.name}>
                  <th scope="row">{item.name}</th>
                  {[item.used_g, item.counted_g, item.left_g].map((grams, i) => (
                    <td key={i} class="number">
                      {weight(grams as never, habits)}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </Wide>
      </details>
    </>
  );
}

function Nutrition({ label }: { label: LabelAnswer }) {
  const habits = useHabits();
  // The United States go by the serving, the others by 100 g; so does the range.
  const us = label.rules_of === "us";
  const portion = label.portion_g;
  const whole = label.serving?.whole_too ?? false;
  const share = us && portion !== null ? portion / 100 : 1;
  return (
    <>
      {label.serving && label.serving.measure !== "" && (
        <p>
          A serving: {label.serving.measure} ({Math.round(label.serving.grams)} g); servings: {label.serving.servings}
        </p>
      )}
      <Wide name="Nutrition">
        <table class="nutrition">
          <caption class="unseen">Nutrition, with its range</caption>
          <thead>
            <tr>
              <th scope="col">in the loaf</th>
              {!us && (
                <th scope="col" class="number">
                  100 g
                </th>
              )}
              {portion !== null && (
                <th scope="col" class="number">
                  {two_figures(portion, habits)} g
                </th>
              )}
              {us && (
                <th scope="col" class="number">
                  % Daily Value
                </th>
              )}
              {whole && (
                <th scope="col" class="number">
                  the whole
                </th>
              )}
              <th scope="col" class="number">
                4 of 5 loaves
              </th>
            </tr>
          </thead>
          <tbody>
            {label.nutrition.map((row) => (
              <tr key={row.name + row.unit}>
                <th scope="row" class={row.indented ? "indented" : ""}>
                  {row.name}
                </th>
                {!us && (
                  <td class="number">
                    {written(row.said_100_g, habits)}&nbsp;{row.unit}
                  </td>
                )}
                {portion !== null && (
                  <td class="number">
                    {written(row.said_portion, habits)}&nbsp;{row.unit}
                  </td>
                )}
                {us && <td class="number">{row.daily_value_percent === null ? "" : `${row.daily_value_percent} %`}</td>}
                {whole && (
                  <td class="number">
                    {written(row.said_whole, habits)}&nbsp;{row.unit}
                    {row.daily_value_percent_whole !== null && `, ${row.daily_value_percent_whole} %`}
                  </td>
                )}
                <td class="number quiet">
                  {row.in_100_g && `${two_figures(share * row.in_100_g.low, habits)} to ${two_figures(share * row.in_100_g.high, habits)}`}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </>
  );
}
