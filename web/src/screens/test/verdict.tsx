// The verdict in one sentence, and the evidence below it.
import type { AfterAnswer } from "../../api/test_bakes";
import { Fold } from "../../parts/fold";
import { Work } from "../../parts/long_work";
import { lasting, odds, percent, plain, two_figures, useHabits } from "../../say/say";
import type { Habits } from "../../say/habits";
import { useLongWork } from "../../state/long_work";
import { cause_words } from "../../state/test_bake";
import { Curves } from "./curves";

export function Verdict({ what, read }: { what: object; read: number }) {
  const work = useLongWork<AfterAnswer>("testbake-after");
  return (
    <div class="stack">
      {read === 0 && <p>No heights are written down yet; the verdict needs some.</p>}
      <Work work={work} words="What do the jars say?" ready={read > 0} begin={() => work.begin(what)} />
      {work.answer && <Evidence answer={work.answer} />}
    </div>
  );
}

const finding_words = { acts: "it slows the dough", does_not: "it does not", not_decided: "not decided" } as const;

const weighed = (weight: number) => odds(weight, 1000);

const what_words: Record<string, string> = { lag: "Hours until it moves", speed: "Speed of the rise", peak: "Largest rise" };

/** A difference as a baker says it; that of speed comes as its logarithm. */
function difference(what: string, value: number, habits: Habits): string {
  const sign = value < 0 ? "−" : "+";
  if (what === "speed") {
    const share = Math.expm1(value);
    return `${share < 0 ? "−" : "+"}${percent(Math.abs(share), habits)}`;
  }
  if (what === "lag") return `${sign}${plain(Math.abs(value), 1, habits)} h`;
  return `${sign}${plain(Math.abs(value), 1, habits)}×`;
}

const combination = (one: AfterAnswer["verdict"]["combinations"][number]) =>
  `${one.acting.length ? one.acting.map(cause_words).join(" and ") : "none of them"}: ${weighed(one.weight)}`;

function Evidence({ answer }: { answer: AfterAnswer }) {
  const habits = useHabits();
  const { verdict } = answer;
  return (
    <>
      <p class="verdict">{verdict.sentence}</p>
      {verdict.odd_readings.map((words) => (
        <p key={words}>{words}</p>
      ))}
      <div class="verdict-columns">
        <Curves jars={answer.jars_read} within_h={answer.within_h} />
        <section class="stack tight" aria-labelledby="causes">
          <h2 id="causes">Cause by cause</h2>
          {verdict.causes.map((cause) => (
            <article key={cause.cause} class="cause stack tight">
              <h3>
                {cause_words(cause.cause)} <span class="quiet small">{finding_words[cause.finding]}</span>
              </h3>
              <div class="weigh" role="img" aria-label={`${weighed(cause.weight)} that it plays a part`}>
                <i style={{ width: `${100 * cause.weight}%` }} />
              </div>
              <p>
                {weighed(cause.weight)} that it plays a part ({weighed(cause.weight_before)} before the jars were read).
                {cause.finding !== "does_not" && cause.hours !== null && cause.hours_low !== null && cause.hours_high !== null && (
                  <>
                    {" "}
                    It explains {cause.at_least ? "at least " : ""}
                    {lasting(Math.max(0, cause.hours_low))} to {lasting(Math.max(0, cause.hours_high))}.
                  </>
                )}
              </p>
              <p class="quiet">{cause.words}</p>
            </article>
          ))}
        </section>
      </div>
      <Fold title="Together" fact={verdict.combinations.slice(0, 1).map(combination).join()}>
        <ul>
          {verdict.combinations.slice(0, 6).map((one) => (
            <li key={one.acting.join()}>
              {combination(one)}
            </li>
          ))}
        </ul>
      </Fold>
      {answer.compared.map((comparison) => (
        <Fold
          key={comparison.what}
          title={what_words[comparison.what] ?? comparison.what}
          fact={`${comparison.contrasts.filter((one) => one.clear).length} of ${comparison.contrasts.length} differ from ${answer.control}`}
        >
          <table>
            <tbody>
              {comparison.contrasts.map((one) => (
                <tr key={one.dough}>
                  <th scope="row">{one.dough}</th>
                  <td class="number">
                    {one.difference === null || one.low === null || one.high === null
                      ? "cannot be said"
                      : `${difference(comparison.what, one.difference, habits)} (${difference(comparison.what, one.low, habits)} to ${difference(comparison.what, one.high, habits)})`}
                    <br />
                    <span class="quiet small">{one.clear ? "differs" : "no difference shown"}</span>
                  </td>
                </tr>
              ))}
              {comparison.unseen.map((one) => (
                <tr key={one.dough}>
                  <th scope="row">{one.dough}</th>
                  <td>{one.words}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Fold>
      ))}
      {answer.dose_curves.map((curve) => (
        <p key={curve.cause}>
          {curve.half_speed_dose === null || curve.half_low === null || curve.half_high === null
            ? `The jars alone say no half-speed dose of ${curve.cause}.`
            : `By the jars alone ${two_figures(curve.half_speed_dose, habits)} ${curve.unit} of ${curve.cause} halve the speed, ${two_figures(curve.half_low, habits)} to ${two_figures(curve.half_high, habits)}.`}
        </p>
      ))}
    </>
  );
}
