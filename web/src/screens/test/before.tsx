// What these doughs can tell, before any flour is wasted.
import type { BeforeAnswer } from "../../api/test_bakes";
import { Work } from "../../parts/long_work";
import { lasting, odds, percent, useHabits } from "../../say/say";
import { useLongWork } from "../../state/long_work";

export function Before({ what }: { what: object }) {
  const habits = useHabits();
  const work = useLongWork<BeforeAnswer>("testbake-before");
  const { answer } = work;
  return (
    <div class="stack">
      <Work work={work} aside words="What can these doughs tell?" begin={() => work.begin(what)} />
      {answer && (
        <>
          <section class="sheet stack tight" aria-label="What they can tell apart">
            {answer.told_apart.words.map((words) => (
              <p key={words}>
                <strong>{words}</strong>
              </p>
            ))}
            <details>
              <summary>
                <span class="small">The working</span>
              </summary>
              <ul class="small">
                {answer.told_apart.working.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </details>
          </section>
          <section class="stack tight" aria-labelledby="answered">
            <h2 id="answered">What is known of a typical starter</h2>
            <ul>
              {answer.answered.map((one) => (
                <li key={one.cause}>
                  <strong>{one.cause}</strong>: {one.words}
                </li>
              ))}
            </ul>
          </section>
          <section class="stack tight" aria-labelledby="expected">
            <h2 id="expected">What to expect</h2>
            <ul class="bare stack tight">
              {answer.doughs.map((dough) => (
                <li key={dough.name} class="sheet">
                  <strong>{dough.name}</strong>{" "}
                  {dough.expected && (
                    <>
                      {dough.expected.p50_h === null
                        ? "more likely than not never ready"
                        : `ready after ${dough.expected.p10_h === null ? "?" : lasting(dough.expected.p10_h)} to ${dough.expected.p90_h === null ? "never" : lasting(dough.expected.p90_h)}`}
                      ; in time {odds(dough.expected.chance_in_time, answer.draws)}
                    </>
                  )}
                </li>
              ))}
            </ul>
          </section>
          <section class="stack tight" aria-labelledby="needed">
            <h2 id="needed">How many are enough</h2>
            <p>
              As planned, two doughs of which one is {percent(answer.difference, habits)} slower would be told apart {odds(answer.chance_as_planned, 1000)}.
            </p>
            <ul>
              {answer.needed.map((way) => (
                <li key={`${way.days}-${way.jars}`}>
                  {way.days} {way.days === 1 ? "day" : "days"} with {way.jars} {way.jars === 1 ? "jar" : "jars"} of each: {odds(way.chance, 1000)}
                </li>
              ))}
            </ul>
          </section>
        </>
      )}
    </div>
  );
}
