// The sheet to weigh from: big figures to read from a step away, one line to tick off, what was really poured and what
// that asks for. Ticks are marks of the bake, so another device sees them. Survives a reload, a phone that sleeps and a
// server that is away; keeps the screen awake; prints on one page.
import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { anew, away, conflicting, post, Refusal, remove, words_of } from "../../api/ask";
import { type Bake, get_bake, mixed_of, save_bake } from "../../api/bakes";
import { Newest } from "../../api/newest";
import type { Bowl, BowlAnswer, MarkRecordList, MendAnswer } from "../../api/types";
import { BakeFrame } from "../../parts/bake_frame";
import { ReadySaid } from "../../parts/ready_said";
import { Failed, Refused, Waiting } from "../../parts/states";
import { exact_moment, iso, now, to_utc } from "../../say/clock";
import { made_from } from "../../say/prepare";
import { useHabits, weight } from "../../say/say";
import { draft, drop_draft, keep_draft } from "../../state/drafts";
import { new_id } from "../../state/outbox";
import { type Held, useAnswer } from "../../api/use";
import { type Form, set, stages } from "../../state/bake";
import type { Params } from "../../shell/names";
import { can_undo } from "../../state/undo";
import { AtTheOven } from "./at_the_oven";
import { useAwake } from "./awake";
import { BenchLine } from "./bench_line";
import { Build } from "./build";
import { PutRight } from "./put_right";
import { StartOver, put_back } from "./start_over";
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

/** What was typed since those figures were sent. */
const without = (typed: Ticks["poured_g"], sent: Ticks["poured_g"]) => Object.fromEntries(Object.entries(typed).filter(([of, g]) => sent[of] !== g));

function Bench({ record }: { record: Bake }) {
  const habits = useHabits();
  const name = `bench.${record.id}`;
  const typed = (): Ticks => ({ ...nothing_yet, ...draft<Ticks>(name)?.value });
  const ticks = typed();
  const held = useAnswer<MarkRecordList>(`/api/marks?owner=${record.id}&limit=500`, ["mark"]);
  const marks = (held.answer?.marks ?? []).filter((m) => m.what === "weigh");
  const is_done = (line: string) => ticks.ticked[line] ?? marks.some((m) => m.of === line);
  const poured_g = { ...poured_before(marks), ...ticks.poured_g };
  const { bowl, mend, error } = useBowl(record, poured_g, is_done);
  const awake = useAwake();
  const keep = (what: Partial<Ticks>) => {
    const next = { ...typed(), ...what };
    if (Object.keys(next.ticked).length + Object.keys(next.poured_g).length === 0) drop_draft(name);
    else keep_draft(name, next, record.revision);
  };
  const refused = useTicksSent(record.id, held, ticks.ticked, (ticked) => keep({ ticked }));
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
      <ReadySaid record={record} />
      {bowl.to_prepare.map((one) => (
        <p key={one.ingredient} class="note">
          Before it is weighed, {weight(one.mass_g, habits)} of {one.ingredient}: {made_from(one, habits)}.
        </p>
      ))}
      <ol class="bare bench-lines">
        {lines.map((line) => (
          <li key={line.ingredient} class={is_done(line.ingredient) ? "done" : ""}>
            <BenchLine
              line={line}
              habits={habits}
              done={is_done(line.ingredient)}
              tick={(done) => keep({ ticked: { ...typed().ticked, [line.ingredient]: done } })}
              poured={poured_g[line.ingredient]}
              pour={(g) => {
                const { [line.ingredient]: _, ...rest } = typed().poured_g;
                keep({ poured_g: g === undefined ? rest : { ...rest, [line.ingredient]: g } });
              }}
            />
          </li>
        ))}
      </ol>
      <p role="status" class="no-print">{left === 0 ? "All is in the bowl." : `${left} of ${lines.length} still to weigh.`}</p>
      <Refused why={refused} />
      {mend?.needed && (
        <PutRight
          mend={mend}
          lines={lines}
          is_in={(line) => is_done(line) || poured_g[line] !== undefined}
          habits={habits}
          pour={(more) => keep({ poured_g: { ...typed().poured_g, ...more } })}
        />
      )}
      <Build record={record} bowl={bowl} />
      <AtTheOven form={record.form} />
      <Finish record={record} poured_g={ticks.poured_g} poured_kept={(sent) => keep({ poured_g: without(typed().poured_g, sent) })}>
        <StartOver
          record={record}
          marks={marks}
          ticked={lines.filter((l) => is_done(l.ingredient)).length}
          poured_g={poured_g}
          start_over={() => {
            keep(nothing_yet);
            return () => keep(ticks);
          }}
        />
      </Finish>
    </div>
  );
}

/** What was sent of a line last, and when the daybook took it. */
interface Sent {
  done: boolean;
  taken_ms: number;
}

/** Sends ticks to the daybook, where every device sees them, and takes off what is there; while the server is away they
    wait here. Gives the words of a tick that was refused. */
function useTicksSent(bake: string, held: Held<MarkRecordList>, ticked: Ticks["ticked"], keep: (left: Ticks["ticked"]) => void): string {
  const [refused, set_refused] = useState("");
  const sent = useRef<Record<string, Sent>>({});
  const marks = held.answer?.marks.filter((m) => m.what === "weigh");
  const send = async (of: string, done: boolean) => {
    sent.current[of] = { done, taken_ms: Number.POSITIVE_INFINITY };
    try {
      if (done) await post("/api/marks", { id: new_id(), bake, what: "weigh", of, at: to_utc(now()) });
      else await take_off(marks?.filter((m) => m.of === of) ?? [], of);
      sent.current[of] = { done, taken_ms: performance.now() };
      set_refused("");
      held.again();
    } catch (error) {
      delete sent.current[of];
      if (error instanceof Refusal) set_refused(words_of(error));
    }
  };
  useEffect(() => {
    if (!marks || away.value) return;
    // What the daybook says counts once it was asked after the last tick of that line was taken; until then the tick does.
    const is_known = (of: string) => held.asked_ms > (sent.current[of]?.taken_ms ?? 0);
    const is_there = (of: string, done: boolean) => (sent.current[of]?.done === done ? is_known(of) : is_known(of) && marks.some((m) => m.of === of) === done);
    const left = Object.entries(ticked).filter(([of, done]) => !is_there(of, done));
    for (const [of, done] of left) if (is_known(of)) void send(of, done);
    for (const of of Object.keys(sent.current)) if (is_known(of)) delete sent.current[of];
    if (left.length < Object.keys(ticked).length) keep(Object.fromEntries(left));
  }, [JSON.stringify(ticked), held.answer, away.value]);
  return refused;
}

/** Unticks a line; what was poured of it can be had again. */
async function take_off(marks: MarkRecordList["marks"], of: string): Promise<void> {
  for (const mark of marks) await remove(`/api/marks/${mark.id}`);
  if (marks.some((m) => m.poured_g !== null)) can_undo(`What was poured of ${of} is off the sheet.`, () => put_back(marks));
}

/** What marks say was poured, the newest of each. */
function poured_before(marks: MarkRecordList["marks"]): Record<string, number> {
  const weighed = marks.filter((m) => m.poured_g !== null).sort((a, b) => (a.at < b.at ? -1 : 1));
  return Object.fromEntries(weighed.map((m) => [m.of, m.poured_g ?? 0]));
}

/** The bowl with what was poured laid over it, asked anew at every figure. */
function useBowl(record: Bake, poured_g: Readonly<Record<string, number>>, is_done: (line: string) => boolean) {
  const [state, set_state] = useState<{ bowl?: Bowl; mend?: MendAnswer["mend"]; error?: unknown }>({});
  const [line] = useState(
    () =>
      new Newest<object, MendAnswer | BowlAnswer>(
        (body, signal) => post("weighed_g" in body ? "/api/mend" : "/api/bowl", body, { signal }),
        (answer) => set_state({ bowl: answer.bowl, mend: "mend" in answer ? answer.mend : answer.bowl.mend }),
        (error) => set_state((before) => ({ ...before, error })),
      ),
  );
  // What is ticked is in the bowl as planned: no more can be kept back of it.
  const as_planned = Object.fromEntries((state.bowl?.lines ?? []).filter((l) => is_done(l.ingredient)).map((l) => [l.ingredient, l.plan_g]));
  const in_the_bowl = { ...as_planned, ...poured_g };
  const key = JSON.stringify(in_the_bowl);
  useEffect(() => {
    const weighed_g = Object.keys(poured_g).length ? { weighed_g: in_the_bowl } : {};
    line.ask({ bake: record.form, ...weighed_g });
  }, [record.revision, key, anew.value]);
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

function Finish(props: { record: Bake; poured_g: Ticks["poured_g"]; poured_kept: (sent: Ticks["poured_g"]) => void; children: ComponentChildren }) {
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
    props.poured_kept(Object.fromEntries(poured));
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
        <button type="button" class="main" onClick={() => void attempt(keep_poured, "Kept: from now on everything counts with what was poured.")}>
          Keep what was poured
        </button>
      )}
      {record.state !== "live" && record.state !== "finished" && (
        <button type="button" class={poured.length > 0 ? "" : "main"} onClick={() => void attempt(mixed_now, "Mixed: the clock of this dough runs.")}>
          Mixed just now
        </button>
      )}
      <button type="button" onClick={() => print()}>
        Print
      </button>
      {props.children}
      <span role="status">{said}</span>
    </div>
  );
}
