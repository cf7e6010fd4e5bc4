// The label: a draft by the law of a place, each line with the rule it follows and what is not known.
import { useState } from "preact/hooks";
import type { LabelAnswer, LabelLine, Piece, Rules } from "../../api/shop";
import { Choice } from "../../parts/field";
import { Failed, Waiting } from "../../parts/states";
import { Wide } from "../../parts/wide";
import { two_figures, useHabits } from "../../say/say";
import { useAsked } from "../../state/asked";
import { by_comma } from "./money";

const laws: readonly (readonly [Rules, string])[] = [
  ["eu", "European Union"],
  ["uk", "United Kingdom"],
  ["us", "United States"],
];
const widths = ["40mm", "50mm", "60mm", "80mm", "100mm"] as const;

export function LabelSheet({ id }: { id: string }) {
  const [rules, set_rules] = useState<Rules>("eu");
  const [portion, set_portion] = useState("50g");
  const [width, set_width] = useState<(typeof widths)[number]>("60mm");
  const held = useAsked<LabelAnswer>("/api/label", { bake_id: id, rules, portion });
  const label = held.answer;
  const us = rules === "us";
  const habits = useHabits();
  const height = (mm: number) => by_comma(String(Number(mm.toFixed(2))), habits);
  return (
    <div class="stack">
      <div class="pair">
        <Choice label="By the law of" value={rules} options={laws} give={set_rules} />
        <Choice label="A portion" value={portion} options={["30g", "40g", "50g", "80g", "100g"].map((p) => [p, p.replace("g", " g")] as const)} give={set_portion} />
        <Choice label="Width of the printed label" value={width} options={widths.map((w) => [w, w.replace("mm", " mm")] as const)} give={set_width} />
      </div>
      {held.error ? <Failed error={held.error} /> : null}
      {!label && !held.error && <Waiting what="Writing the label…" />}
      {label && (
        <>
          <p class="note">{label.draft}</p>
          <section class="stack tight" aria-labelledby="lines">
            <h2 id="lines">On the label</h2>
            {label.lines.map((line) => (
              <Line key={line.field} line={line}>
                {line.field === "nutrition" && <Nutrition label={label} />}
              </Line>
            ))}
          </section>
          <section class="stack tight" aria-labelledby="questions">
            <h2 id="questions">Ask before you print</h2>
            {label.questions.map((line) => (
              <Line key={line.field} line={line} />
            ))}
          </section>
          <div class="row">
            <a class="button main" href={`/api/bakes/${id}/label.html?rules=${rules}&width=${width}&portion=${portion}`} target="_blank" rel="noopener">
              The label, to print
            </a>
          </div>
          <p class="quiet small">
            The law asks for a small {us ? "o" : "x"} at least {height(label.least_x_height_mm)} mm high
            {label.small_pack_x_height_mm !== label.least_x_height_mm && ` (${height(label.small_pack_x_height_mm)} mm on a small pack)`}; the sheet
            keeps to it.
          </p>
        </>
      )}
    </div>
  );
}

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

function Nutrition({ label }: { label: LabelAnswer }) {
  const habits = useHabits();
  // The United States go by the serving, the others by 100 g; so does the range.
  const us = label.rules_of === "us";
  const share = us ? label.portion_g / 100 : 1;
  return (
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
            <th scope="col" class="number">
              {label.portion_g} g
            </th>
            {us && (
              <th scope="col" class="number">
                % Daily Value
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
                  {by_comma(row.said_100_g, habits)}&nbsp;{row.unit}
                </td>
              )}
              <td class="number">
                {by_comma(row.said_portion, habits)}&nbsp;{row.unit}
              </td>
              {us && <td class="number">{row.daily_value_percent === null ? "" : `${row.daily_value_percent} %`}</td>}
              <td class="number quiet">
                {row.in_100_g && `${two_figures(share * row.in_100_g.low, habits)} to ${two_figures(share * row.in_100_g.high, habits)}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
