// The tables of a label: how the order of its list comes about, and the nutrition with its range.
import type { LabelAnswer } from "../../api/shop";
import { Wide } from "../../parts/wide";
import { two_figures, useHabits, weight } from "../../say/say";
import { written } from "../../say/numbers";

/** How the order of the list comes about: used, what the order goes by, what is left in the loaf. */
export function Working({ label }: { label: LabelAnswer }) {
  const habits = useHabits();
  return (
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
  );
}

export function Nutrition({ label }: { label: LabelAnswer }) {
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
