// The sheet to weigh from: big figures to read from a step away, one line to tick off, what was really poured and what
// that asks for. Ticks are marks of the bake, so another device sees them. Survives a reload, a phone that sleeps and a
// server that is away; keeps the screen awake; prints on one page.
import { useEffect, useRef, useState } from "preact/hooks";
import { away, conflicting, post, Refusal, remove, words_of } from "../../api/ask";
import { type Bake, get_bake, mixed_of, save_bake } from "../../api/bakes";
import { Newest } from "../../api/newest";
import type { Bowl, BowlAnswer, MarkRecordList, MendAnswer } from "../../api/types";
import { BakeFrame } from "../../parts/bake_frame";
import { Figure } from "../../parts/field";
import { Failed, Waiting } from "../../parts/states";
import type { Habits } from "../../say/habits";
import { exact_moment, iso, now, to_utc } from "../../say/clock";
import { scale_figure, useHabits, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { draft, drop_draft, keep_draft } from "../../state/drafts";
import { new_id } from "../../state/outbox";
import { type Held, useAnswer } from "../../api/use";
import { type Form, set, stages } from "../../state/bake";
import type { Params } from "../../shell/places";
import { useAwake } from "./awake";
import "./bench.css";

export default function BenchScreen({ params }: { params: Params }) {
  return (
    <BakeFrame id={params.id ?? ""} here="Bench">
      {(record) => <Bench key={record.id} record={record} />}
    </BakeFrame>
  );
}

/** What is not in the daybook yet: lines ticked or not, and figures typed. */
interface Ticks {
  ticked: Readonly<Record<string, boolean>>;
  poured_g: Readonly<Record<string, number>>;
}

const nothing_yet: Ticks = { ticked: {}, poured_g: {} };

function Bench({ record }: { record: Bake }) {
  const habits = useHabits();
  const name = `bench.${record.id}`;
  const [ticks, set_ticks] = useState<Ticks>(() => ({ ...nothing_yet, ...draft<Ticks>(name)?.value }));
  const held = useAnswer<MarkRecordList>(`/api/marks?owner=${record.id}&limit=500`, ["mark"]);
  const marks = (held.answer?.marks ?? []).filter((m) => m.what === "weigh");
  const is_done = (line: string) => ticks.ticked[line] ?? marks.some((m) => m.of === line);
  const poured_g = { ...poured_before(marks), ...ticks.poured_g };
  const { bowl, mend, error } = useBowl(record, poured_g);
  const awake = useAwake();
  const keep = (next: Ticks) => {
    if (Object.keys(next.ticked).length + Object.keys(next.poured_g).length === 0) drop_draft(name);
    else keep_draft(name, next, record.revision);
    set_ticks(next);
  };
  const refused = useTicksSent(record.id, held, ticks.ticked, (ticked) => keep({ ...ticks, ticked }));
  if (!bowl) return error ? <Failed error={error} /> : <Waiting what="Weighing…" />;
  const lines = in_order(bowl, record.form);
  const left = lines.filter((l) => !is_done(l.ingredient)).length;
  const mixed = mixed_of(record, record.form);
  return (
    <div class="bench stack">
      <p class="row apart">
        <span>
          {bowl.pieces > 0 && `${bowl.pieces} pieces of ${weight(bowl.piece_g, habits)} · `}
          {weight(bowl.dough_g, habits)} of dough{mixed !== undefined && ` · mixed ${exact_moment(mixed, habits)}`}
        </span>
        <span class="quiet small no-print">{awake}</span>
      </p>
      <ol class="bare bench-lines">
        {lines.map((line) => (
          <li key={line.ingredient} class={is_done(line.ingredient) ? "done" : ""}>
            <BenchLine
              line={line}
              habits={habits}
              done={is_done(line.ingredient)}
              tick={(done) => keep({ ...ticks, ticked: { ...ticks.ticked, [line.ingredient]: done } })}
              poured={poured_g[line.ingredient]}
              pour={(g) => {
                const { [line.ingredient]: _, ...rest } = ticks.poured_g;
                keep({ ...ticks, poured_g: g === undefined ? rest : { ...rest, [line.ingredient]: g } });
              }}
            />
          </li>
        ))}
      </ol>
      <p role="status">{left === 0 ? "All is in the bowl." : `${left} of ${lines.length} still to weigh.`}</p>
      {refused && (
        <p class="note" role="alert">
          {refused}
        </p>
      )}
      {mend?.needed && (
        <section class="note stack tight" aria-labelledby="mend" data-testid="mend">
          <h2 id="mend">The mend</h2>
          <p>{mend.words}</p>
          {mend.add.length > 0 && (
            <ul class="bare">
              {mend.add.map((a) => (
                <li key={a.ingredient}>
                  <span class="figure mend-figure">+ {weight(a.mass_g, habits)}</span> {a.ingredient}
                </li>
              ))}
            </ul>
          )}
        </section>
      )}
      <Finish
        record={record}
        poured_g={ticks.poured_g}
        poured_kept={() => keep({ ...ticks, poured_g: {} })}
        start_over={() => keep({ ticked: Object.fromEntries(lines.filter((l) => is_done(l.ingredient)).map((l) => [l.ingredient, false])), poured_g: {} })}
        begun={lines.some((l) => is_done(l.ingredient)) || Object.keys(ticks.poured_g).length > 0}
      />
    </div>
  );
}

/** Sends ticks to the daybook, where every device sees them, and takes off what is there; while the server is away they
    wait here. Gives the words of a tick that was refused. */
function useTicksSent(bake: string, held: Held<MarkRecordList>, ticked: Ticks["ticked"], keep: (left: Ticks["ticked"]) => void): string {
  const [refused, set_refused] = useState("");
  const sent = useRef<Record<string, boolean>>({});
  const marks = held.answer?.marks.filter((m) => m.what === "weigh");
  const send = async (of: string, done: boolean) => {
    sent.current[of] = done;
    try {
      if (done) await post("/api/marks", { id: new_id(), bake, what: "weigh", of, at: to_utc(now()) });
      else for (const mark of marks?.filter((m) => m.of === of) ?? []) await remove(`/api/marks/${mark.id}`);
      set_refused("");
      held.again();
    } catch (error) {
      delete sent.current[of];
      if (error instanceof Refusal) set_refused(words_of(error));
    }
  };
  useEffect(() => {
    if (!marks || away.value) return;
    const there = (of: string) => marks.some((m) => m.of === of);
    const left = Object.entries(ticked).filter(([of, done]) => there(of) !== done);
    for (const of of Object.keys(sent.current)) if (there(of) === sent.current[of]) delete sent.current[of];
    for (const [of, done] of left) if (sent.current[of] !== done) void send(of, done);
    if (left.length < Object.keys(ticked).length) keep(Object.fromEntries(left));
  }, [JSON.stringify(ticked), held.answer, away.value]);
  return refused;
}

/** What marks say was poured, the newest of each. */
function poured_before(marks: MarkRecordList["marks"]): Record<string, number> {
  const weighed = marks.filter((m) => m.poured_g !== null).sort((a, b) => (a.at < b.at ? -1 : 1));
  return Object.fromEntries(weighed.map((m) => [m.of, m.poured_g ?? 0]));
}

/** The bowl with what was poured laid over it, asked anew at every figure. */
function useBowl(record: Bake, poured_g: Readonly<Record<string, number>>) {
  const [state, set_state] = useState<{ bowl?: Bowl; mend?: MendAnswer["mend"]; error?: unknown }>({});
  const [line] = useState(
    () =>
      new Newest<object, MendAnswer | BowlAnswer>(
        (body, signal) => post("weighed_g" in body ? "/api/mend" : "/api/bowl", body, { signal }),
        (answer) => set_state({ bowl: answer.bowl, mend: "mend" in answer ? answer.mend : answer.bowl.mend }),
        (error) => set_state((before) => ({ ...before, error })),
      ),
  );
  const key = JSON.stringify(poured_g);
  useEffect(() => {
    const weighed_g = Object.keys(poured_g).length ? { weighed_g: poured_g } : {};
    line.ask({ bake: record.form, ...weighed_g });
  }, [record.revision, key]);
  return state;
}

/** In the order of mixing, where the recipe says one; the rest after. */
function in_order(bowl: Bowl, form: Form): Bowl["lines"] {
  const order = stages(form).find((s) => Array.isArray(s.order))?.order as string[] | undefined;
  if (!order) return bowl.lines;
  const place = (name: string) => {
    const at = order.indexOf(name);
    return at < 0 ? order.length : at;
  };
  return [...bowl.lines].sort((a, b) => place(a.ingredient) - place(b.ingredient));
}

function BenchLine(props: {
  line: Bowl["lines"][number];
  habits: Habits;
  done: boolean;
  tick: (done: boolean) => void;
  poured: number | undefined;
  pour: (g: number | undefined) => void;
}) {
  const { line, habits, done, poured } = props;
  const [open, set_open] = useState(poured !== undefined);
  return (
    <div class="bench-line">
      <label class="tick">
        <input type="checkbox" checked={done} onChange={(e) => props.tick(e.currentTarget.checked)} />
        <span class="big">
          {scale_figure(line.plan_g, habits)}
          <small> {habits.weight}</small>
        </span>
        <span class="what">
          {line.ingredient}
          {line.volume_mL > 0 && <span class="quiet small"> about {Math.round(line.volume_mL)} mL</span>}
        </span>
      </label>
      {open ? (
        <div class="poured no-print">
          <Figure<number | undefined>
            label={`Really poured of ${line.ingredient} (${habits.weight})`}
            shown={poured === undefined ? "" : scale_figure(poured, habits)}
            read={(text) => (text.trim() === "" ? { ok: true, value: undefined } : typed.weight(text, habits))}
            give={(g) => props.pour(g)}
          />
          <button
            type="button"
            class="plain"
            onClick={() => {
              props.pour(undefined);
              set_open(false);
            }}
          >
            As planned
          </button>
        </div>
      ) : (
        <button type="button" class="other no-print" onClick={() => set_open(true)} aria-label={`Other weight of ${line.ingredient}`}>
          other
        </button>
      )}
      <span class="blank only-print" aria-hidden="true" />
    </div>
  );
}

function Finish(props: { record: Bake; poured_g: Ticks["poured_g"]; poured_kept: () => void; start_over: () => void; begun: boolean }) {
  const { record } = props;
  const [said, set_said] = useState("");
  const poured = Object.entries(props.poured_g);
  const attempt = async (work: () => Promise<unknown>, done: string) => {
    try {
      await work();
      set_said(done);
    } catch (error) {
      set_said(words_of(error));
    }
  };
  const keep_poured = async () => {
    const at = to_utc(now());
    for (const [of, poured_g] of poured) {
      await post("/api/marks", { id: new_id(), bake: record.id, what: "weigh", of, poured_g: Math.round(poured_g * 10) / 10, at });
    }
    props.poured_kept();
  };
  const mixed_now = async () => {
    const live = (of: Bake) =>
      save_bake(of, of.revision, set(of.form, "mixed", `${iso(now())}:00`), { state: "live", mixed_at: to_utc(now()) });
    await live(record).catch(async (error: unknown) => {
      if (!conflicting(error)) throw error;
      return live(await get_bake(record.id));
    });
  };
  return (
    <div class="row no-print">
      {poured.length > 0 && (
        <button type="button" class="main" onClick={() => void attempt(keep_poured, "Kept: from now on everything is reckoned with what was poured.")}>
          Keep what was poured
        </button>
      )}
      {record.state !== "live" && record.state !== "finished" && (
        <button type="button" onClick={() => void attempt(mixed_now, "Mixed: the clock of this dough runs.")}>
          Mixed just now
        </button>
      )}
      <button type="button" onClick={() => print()}>
        Print
      </button>
      <button type="button" onClick={props.start_over} disabled={!props.begun}>
        Start over
      </button>
      <span role="status">{said}</span>
    </div>
  );
}
