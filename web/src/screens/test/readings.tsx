// All jars at one moment: a height for each, by its label alone, so that nobody knows which dough is read before the verdict. What is
// written down goes to the daybook at once, or waits in this browser until the server is back.
import { useEffect, useRef, useState } from "preact/hooks";
import { Away, words_of } from "../../api/ask";
import type { JarLook, PlanAnswer, TestDocument } from "../../api/test_bakes";
import { Choice, Figure } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { Failed, Waiting } from "../../parts/states";
import { Wide } from "../../parts/wide";
import { day_words, exact_moment, hours_between, iso, moment_of, now } from "../../say/clock";
import { percent_figure, plain, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { type Asked, useAsked } from "../../state/asked";
import { useTyping } from "../../state/drafts";
import { new_id, outbox } from "../../state/outbox";
import { forms, keep_if_room, kept_text } from "../../state/store";
import { can_undo } from "../../state/undo";

interface Props {
  test: string;
  doc: TestDocument;
  what: object;
  change: (what: Partial<Pick<TestDocument, "mixed">>) => void;
}

/** What is typed of one look at all jars: heights by label; no hours while it is now. */
interface Typed {
  day: string;
  hours: number | null;
  heights: Readonly<Record<string, number>>;
}

type Jar = PlanAnswer["jars_placed"][number];

const of_jar = (jar: Jar) => (l: JarLook) => l.day === jar.day && l.dough === jar.dough && l.repeat === jar.repeat;

export function Readings({ test, doc, what, change }: Props) {
  const held = useAsked<PlanAnswer>("/api/testbake-plan", what);
  const habits = useHabits();
  const typing = useTyping<Typed>(`looks.${test}`, { day: doc.days.includes(iso(now()).slice(0, 10)) ? iso(now()).slice(0, 10) : (doc.days[0] ?? ""), hours: null, heights: {} });
  const { day, heights } = typing.value;
  const latest = useRef(typing.value);
  latest.current = typing.value;
  const [said, set_said] = useState("");
  const placed = usePlaced(test, held);
  if (!placed) return held.error ? <Failed error={held.error} /> : <Waiting what="Setting out the jars…" />;
  const jars = placed.filter((jar) => jar.day === day).sort((a, b) => a.place - b.place);
  const mixed = moment_of(doc.mixed[day] ?? "");
  const hours = typing.value.hours ?? (mixed === undefined ? 0 : Math.max(0, Math.round(100 * hours_between(mixed, now())) / 100));
  const said_h = (h: number) => percent_figure(h, habits);
  // What was written down leaves the form; what was typed meanwhile for the next look stays.
  const put_away = (written: Typed) => {
    const typed_since = latest.current;
    if (typed_since.hours === written.hours && typed_since.heights === written.heights) typing.clear();
    else typing.set({ heights: Object.fromEntries(Object.entries(typed_since.heights).filter(([label, mm]) => written.heights[label] !== mm)) });
    if (doc.days.length > 1) typing.set({ day: typed_since.day });
  };
  const send = async (look: JarLook, taken_out: boolean) => (await outbox()).add({ jar: { id: new_id(), test, look, taken_out } });
  const write = async (event: Event) => {
    event.preventDefault();
    const looks = jars.flatMap((jar) => {
      const height_mm = heights[jar.label];
      return height_mm === undefined ? [] : [{ day, dough: jar.dough, repeat: jar.repeat, hours, height_mm }];
    });
    if (looks.length === 0) return set_said("No height is typed yet.");
    if (mixed === undefined && typing.value.hours === null) return set_said("The hours are not known: type them, or press Mixed just now.");
    const written = typing.value;
    try {
      for (const look of looks) await send(look, false);
      put_away(written);
      set_said(`Written down: ${looks.length} ${looks.length === 1 ? "height" : "heights"} at ${said_h(hours)} h.`);
      can_undo(`${looks.length} heights at ${said_h(hours)} h are written down.`, async () => {
        for (const look of looks) await send(look, true);
      });
    } catch (error) {
      set_said(words_of(error));
    }
    return undefined;
  };
  return (
    <div class="stack">
      <form class="stack" onSubmit={(event) => void write(event)}>
        <div class="pair">
          {doc.days.length > 1 && <Choice label="Day" value={day} options={doc.days.map((d) => [d, day_words(d, habits)] as const)} give={(d) => typing.set({ day: d })} />}
          <Figure
            label="Hours since mixing"
            shown={mixed === undefined && typing.value.hours === null ? "" : said_h(hours)}
            read={typed.since_mixing}
            give={(h) => typing.set({ hours: h })}
            hint={mixed === undefined ? "not known yet: type them, or press the button as you mix" : `now; mixed ${exact_moment(mixed, habits)}`}
          />
        </div>
        {mixed === undefined && (
          <div>
            <button type="button" onClick={() => change({ mixed: { ...doc.mixed, [day]: iso(now()) } })}>
              Mixed just now
            </button>
          </div>
        )}
        <ol class="bare jar-grid" aria-label="The jars">
          {jars.map((jar) => (
            <li key={jar.label}>
              <Figure<number | undefined>
                label={
                  <>
                    Jar <strong class="figure">{jar.label}</strong> <span class="quiet">(place {jar.place}), mm</span>
                  </>
                }
                shown={heights[jar.label] === undefined ? "" : plain(heights[jar.label] ?? 0, 0, habits)}
                read={typed.or_empty(typed.height)}
                give={(mm) => {
                  const { [jar.label]: _, ...rest } = typing.value.heights;
                  typing.set({ heights: mm === undefined ? rest : { ...rest, [jar.label]: mm } });
                }}
                hint={last_of(doc.looks.filter(of_jar(jar)), said_h)}
              />
            </li>
          ))}
        </ol>
        <div>
          <button type="submit" class="main">
            Write them down
          </button>
        </div>
        <p role="status">{said}</p>
      </form>
      <Seen jars={jars} looks={doc.looks} said_h={said_h} take_out={(look) => void send(look, true).then(() => can_undo(`${look.height_mm} mm at ${said_h(look.hours)} h is taken out.`, () => send(look, false)))} />
    </div>
  );
}

/** Where the jars stand; as they stood last while the server is away. */
function usePlaced(test: string, { answer, error }: Asked<PlanAnswer>): readonly Jar[] | undefined {
  const place = `${forms}plan.${test}`;
  useEffect(() => {
    if (answer) keep_if_room(place, JSON.stringify(answer.jars_placed));
  }, [answer]);
  if (answer) return answer.jars_placed;
  const kept = error instanceof Away ? kept_text(place) : null;
  return kept === null ? undefined : (JSON.parse(kept) as Jar[]);
}

function last_of(looks: readonly JarLook[], said_h: (h: number) => string): string | undefined {
  const last = [...looks].sort((a, b) => b.hours - a.hours)[0];
  return last && `${Math.round(last.height_mm)} at ${said_h(last.hours)} h`;
}

/** A line for each look, a column for each jar. */
function Seen(props: { jars: readonly Jar[]; looks: readonly JarLook[]; said_h: (h: number) => string; take_out: (look: JarLook) => void }) {
  const habits = useHabits();
  const here = props.looks.filter((l) => props.jars.some((jar) => of_jar(jar)(l)));
  const moments = [...new Set(here.map((l) => l.hours))].sort((a, b) => a - b);
  return (
    <Fold title="Seen so far" fact={moments.length === 0 ? "nothing yet" : `${moments.length} looks, the last at ${props.said_h(moments.at(-1) ?? 0)} h`}>
      {here.length === 0 ? (
        <p class="quiet">Nothing of these jars yet.</p>
      ) : (
        <Wide name="Heights so far">
          <table>
            <thead>
              <tr>
                <th scope="col">h</th>
                {props.jars.map((jar) => (
                  <th key={jar.label} scope="col" class="number">
                    {jar.label}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {moments.map((hours) => (
                <tr key={hours}>
                  <th scope="row">{props.said_h(hours)}</th>
                  {props.jars.map((jar) => {
                    const look = here.find((l) => l.hours === hours && of_jar(jar)(l));
                    return (
                      <td key={jar.label} class="number">
                        {look && (
                          <button type="button" class="plain" aria-label={`Take out ${look.height_mm} mm of jar ${jar.label} at ${props.said_h(hours)} h`} onClick={() => props.take_out(look)}>
                            {plain(look.height_mm, 0, habits)}
                          </button>
                        )}
                      </td>
                    );
                  })}
                </tr>
              ))}
            </tbody>
          </table>
        </Wide>
      )}
      {here.length > 0 && <p class="quiet small">A tap on a height takes it out; it can be taken back.</p>}
    </Fold>
  );
}
