// People asked at several prices: who would buy at each, and the price that would earn most.
import type { TillAnswer } from "../../api/shop";
import { Fold } from "../../parts/fold";
import { Wide } from "../../parts/wide";
import { percent, two_figures, useHabits } from "../../say/say";
import { money } from "../../say/money";
import { Words } from "./words";

interface Asked {
  till: TillAnswer;
  name: string;
  text: string;
  wrong: string | undefined;
  give: (text: string) => void;
  open: boolean;
}

export function Buyers({ till, name, text, wrong, give, open }: Asked) {
  const habits = useHabits();
  const buyers = till.buyers;
  return (
    <Fold title="What buyers say" fact={buyers ? buyers.word : "nobody asked yet"} seldom open={open || text !== ""}>
      {buyers && (
        <>
          <p>{buyers.word}</p>
          {buyers.best && !buyers.too_few && (
            <p>
              Most would be left at{" "}
              <strong class="figure">
                {money(buyers.best.price, habits)} {till.currency}
              </strong>
              , 4 times of 5 between {money(buyers.best.p10, habits)} and {money(buyers.best.p90, habits)}
              {buyers.best.at_the_edge && "; that is the last price asked: ask beyond it too"}.
            </p>
          )}
          <Wide name="Answers by price">
            <table>
              <caption class="unseen">Share of people who would buy at each price</caption>
              <thead>
                <tr>
                  <th scope="col">price</th>
                  <th scope="col" class="number">
                    would buy
                  </th>
                  <th scope="col" class="number">
                    4 times of 5
                  </th>
                  <th scope="col" class="number">
                    left of 100 people
                  </th>
                </tr>
              </thead>
              <tbody>
                {buyers.shares.map((share) => (
                  <tr key={share.price}>
                    <th scope="row" class="figure">
                      {money(share.price, habits)}
                    </th>
                    <td class="number">
                      {share.yes} of {share.asked}
                    </td>
                    <td class="number">
                      {two_figures(100 * share.share_p10, habits)} to {percent(share.share_p90, habits)}
                    </td>
                    <td class="number">{money(share.profit_of_100_people, habits)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </Wide>
        </>
      )}
      <Words
        name={name}
        label="One line for each answer"
        wrong={wrong}
        hint="the first line: buyer,price,would buy; then such as  P01,6.50,yes"
        value={text}
        give={give}
        lines
      />
    </Fold>
  );
}
