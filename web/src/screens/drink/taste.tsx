// What of the drink comes through in the bread, and what would bring more: asked after every change of the recipe.
import { useEffect, useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import type { ComesThroughAnswer, MoreTasteAnswer, TasteNote, TasteRoute, TestBakeRecord } from "../../api/types";
import { Failed, Refused, Waiting } from "../../parts/states";
import type { Habits } from "../../say/habits";
import { iso, now } from "../../say/clock";
import { lasting, percent, plain, times, useHabits, weight } from "../../say/say";
import { go, link } from "../../shell/router";
import type { Asked as Answered } from "../../state/asked";
import type { Form } from "../../state/bake";
import { useLongWork } from "../../state/long_work";
import { fresh } from "../../state/test_bake";
import { TasteAcross } from "./taste_across";
import "./taste.css";

interface Asked {
  bake: Form;
  culture_id?: string;
}

const draws = 200;

/** `asked`: what comes through, as it was asked of this form. */
export function Taste({ form, record, within_h, asked: of }: { form: Form; record: Bake; within_h: number; asked: Answered<ComesThroughAnswer> }) {
  const habits = useHabits();
  const asked: Asked = { bake: form, ...(record.culture ? { culture_id: record.culture } : {}) };
  const { answer, error } = of;
  if (!answer) return error ? <Failed error={error} /> : <Waiting what="Tasting…" />;
  if (answer.notes.length === 0) return <p>Nothing is known of how this drink tastes.</p>;
  const shown = answer.notes.filter((note) => note.in_drink >= 1 || note.level !== "gone");
  return (
    <section class="stack tight taste" aria-labelledby="taste" data-testid="taste">
      <h2 id="taste">What of the drink comes through</h2>
      <p>{answer.line}.</p>
      <p class="quiet">
        Noticed by {answer.noticed_in_words}. Of its alcohol {percent(answer.alcohol_left.p10, habits)} to{" "}
        {percent(answer.alcohol_left.p90, habits)} stays (4 of 5): {weight((answer.alcohol_g_per_kg.p10 * answer.loaf_g) / 1000, habits)} to{" "}
        {weight((answer.alcohol_g_per_kg.p90 * answer.loaf_g) / 1000, habits)} in a loaf.
      </p>
      <details>
        <summary>Note by note</summary>
        <Notes notes={shown} habits={habits} />
        <Tongue answer={answer} />
      </details>
      <TasteAcross asked={asked} within_h={within_h} />
      <More asked={asked} habits={habits} />
      {record.revision > 0 && <AsTasting record={record} />}
      {answer.doubts.length > 0 && (
        <details>
          <summary>What this rests on</summary>
          <ul>
            {answer.doubts.map((doubt) => (
              <li key={doubt}>{doubt}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function Notes({ notes, habits }: { notes: readonly TasteNote[]; habits: Habits }) {
  return (
    <table data-testid="notes">
      <caption class="unseen">Notes of the drink, what is left of them and how strong that is</caption>
      <thead>
        <tr>
          <th scope="col">note</th>
          <th scope="col" class="number">
            left
          </th>
          <th scope="col">in the mouth</th>
        </tr>
      </thead>
      <tbody>
        {notes.map((note) => (
          <tr key={note.note}>
            <th scope="row">{note.note}</th>
            <td class="number figure">{percent(note.left.p50, habits)}</td>
            <td>
              {note.level}
              {note.covered_by !== "" && <span class="quiet"> — the bread’s own covers it</span>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Tongue({ answer }: { answer: ComesThroughAnswer }) {
  return (
    <ul class="small">
      {answer.tongue
        .filter((sense) => sense.strength > 0)
        .map((sense) => (
          <li key={sense.sense}>{sense.words}</li>
        ))}
    </ul>
  );
}

function More({ asked, habits }: { asked: Asked; habits: Habits }) {
  const work = useLongWork<MoreTasteAnswer>("more-taste");
  useEffect(() => () => work.stop(), [asked.bake]);
  if (work.error) return <Failed error={work.error} />;
  if (work.running) return <Waiting what="Trying every way…" />;
  if (!work.answer)
    return (
      <div>
        <button type="button" onClick={() => work.begin({ ...asked, draws })}>
          What would bring more
        </button>
      </div>
    );
  const { routes, currency, cautions } = work.answer;
  return (
    <>
      <h3>What would bring more, best first</h3>
      <ol class="routes" data-testid="routes">
        {routes.map((route) => (
          <Route key={`${route.means} ${route.what}`} route={route} currency={currency} habits={habits} />
        ))}
      </ol>
      <ul class="small">
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </>
  );
}

const dough_words = (route: TasteRoute) => {
  if (!route.changes_dough) return "the dough stays as it is";
  if (route.never_ready) return "the dough is not ready in time";
  if (route.later_h === null) return "the dough changes";
  if (Math.abs(route.later_h) < 0.125) return "ready as before";
  return route.later_h > 0 ? `ready ${lasting(route.later_h)} later` : `ready ${lasting(-route.later_h)} sooner`;
};

function Route({ route, currency, habits }: { route: TasteRoute; currency: string; habits: Habits }) {
  const money = `${route.money_a_loaf < 0 ? "−" : "+"}${plain(Math.abs(route.money_a_loaf), 2, habits)} ${currency}`;
  return (
    <li>
      <strong>{route.what}</strong>
      <br />
      {route.no_difference
        ? "no difference that anybody could be sure of"
        : `${times(route.times.p50, habits)} as strong (${plain(route.times.p10, 1, habits)} to ${plain(route.times.p90, 1, habits)})`}
      <span class="quiet">
        ; {money} a loaf{route.price_guessed ? " (price guessed)" : ""}, {plain(route.minutes_a_loaf, 0, habits)} min; {dough_words(route)}
        {route.alcohol_in_loaf_g > 0.5 ? `; ${weight(route.alcohol_in_loaf_g, habits)} of alcohol in and on a loaf` : ""}
      </span>
    </li>
  );
}

const doughs = [
  { name: "in the dough", make: [] },
  { name: "brushed when cold", make: ["plain"] },
  { name: "none", make: ["plain"] },
];

/** Three loaves and a panel settle most of what is guessed here. */
function AsTasting({ record }: { record: Bake }) {
  const [wrong, set_wrong] = useState("");
  const make = async () => {
    try {
      const document = { ...fresh(record.id, iso(now()).slice(0, 10), 1 + Math.floor(Math.random() * 1e6)), doughs, amount_g: 900 };
      const made = await post<TestBakeRecord>("/api/test-bakes", {
        title: `Where does the drink of ${record.title} come through?`,
        question: "In the dough, brushed on the cold loaf, or not at all: does anyone taste it?",
        document: JSON.stringify(document),
      });
      go(link("test", made.id));
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <div class="stack tight">
      <p class="small">Much of this is guessed. Three loaves tell: the drink in the dough, brushed on a plain loaf when it is cold, and none.</p>
      <div>
        <button type="button" onClick={() => void make()}>
          Make a tasting of it
        </button>
      </div>
      <Refused why={wrong} />
    </div>
  );
}
