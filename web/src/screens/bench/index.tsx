// The sheet to weigh from: big figures to read from a step away, one line to tick off, what was really poured and what
// that asks for. Survives a reload and a phone that sleeps; keeps the screen awake; prints on one page.
import { useEffect, useState } from "preact/hooks";
import { conflicting, get, post, put, words_of } from "../../api/ask";
import { Newest } from "../../api/newest";
import type { BakeRecord, Bowl, BowlAnswer, MendAnswer } from "../../api/types";
import { BakeFrame } from "../../parts/bake_frame";
import { Figure } from "../../parts/field";
import { Failed, Waiting } from "../../parts/states";
import type { Habits } from "../../say/habits";
import { exact_moment, moment_of } from "../../say/clock";
import { scale_figure, useHabits, weight } from "../../say/say";
import * as typed from "../../say/typed";
import { draft, drop_draft, keep_draft } from "../../state/drafts";
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

interface Ticks {
  done: readonly string[];
  poured_g: Readonly<Record<string, number>>;
}

const nothing_yet: Ticks = { done: [], poured_g: {} };

function Bench({ record }: { record: BakeRecord }) {
  const habits = useHabits();
  const name = `bench.${record.id}`;
  const [ticks, set_ticks] = useState<Ticks>(() => draft<Ticks>(name)?.value ?? nothing_yet);
  const { bowl, mend, error } = useBowl(record, ticks.poured_g);
  const awake = useAwake();
  const keep = (next: Ticks) => {
    keep_draft(name, next, record.revision);
    set_ticks(next);
  };
  if (!bowl) return error ? <Failed error={error} /> : <Waiting what="Weighing…" />;
  const lines = in_order(bowl, record.form);
  const left = lines.filter((l) => !ticks.done.includes(l.ingredient)).length;
  const mixed = record.mixed_at === null ? undefined : moment_of(record.mixed_at);
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
          <li key={line.ingredient} class={ticks.done.includes(line.ingredient) ? "done" : ""}>
            <BenchLine
              line={line}
              habits={habits}
              done={ticks.done.includes(line.ingredient)}
              tick={(done) =>
                keep({
                  ...ticks,
                  done: done ? [...ticks.done, line.ingredient] : ticks.done.filter((n) => n !== line.ingredient),
                })
              }
              poured={ticks.poured_g[line.ingredient]}
              pour={(g) => {
                const { [line.ingredient]: _, ...rest } = ticks.poured_g;
                keep({ ...ticks, poured_g: g === undefined ? rest : { ...rest, [line.ingredient]: g } });
              }}
            />
          </li>
        ))}
      </ol>
      <p role="status">{left === 0 ? "All is in the bowl." : `${left} of ${lines.length} still to weigh.`}</p>
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
      <Finish record={record} ticks={ticks} clear={() => {
        drop_draft(name);
        set_ticks(nothing_yet);
      }} />
    </div>
  );
}

/** The bowl with what was poured laid over it, asked anew at every figure. */
function useBowl(record: BakeRecord, poured_g: Readonly<Record<string, number>>) {
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

function Finish({ record, ticks, clear }: { record: BakeRecord; ticks: Ticks; clear: () => void }) {
  const [said, set_said] = useState("");
  const poured = Object.entries(ticks.poured_g);
  const keep_poured = async () => {
    const weighed = { ...((record.form.weighed as object | undefined) ?? {}), ...Object.fromEntries(poured.map(([n, g]) => [n, `${Math.round(g * 10) / 10} g`])) };
    const send = (of: BakeRecord) =>
      put<BakeRecord>(`/api/bakes/${record.id}`, { revision: of.revision, bake: set(of.form, "weighed", weighed), state: "alive" });
    try {
      await send(record).catch(async (error: unknown) => {
        if (!conflicting(error)) throw error;
        return send(await get<BakeRecord>(`/api/bakes/${record.id}`));
      });
      clear();
      set_said("Kept in the bake: from now on everything is reckoned with what was poured.");
    } catch (error) {
      set_said(words_of(error));
    }
  };
  return (
    <div class="row no-print">
      {poured.length > 0 && (
        <button type="button" class="main" onClick={() => void keep_poured()}>
          Keep what was poured
        </button>
      )}
      <button type="button" onClick={() => print()}>
        Print
      </button>
      <button type="button" onClick={clear} disabled={ticks.done.length + poured.length === 0}>
        Start over
      </button>
      <span role="status">{said}</span>
    </div>
  );
}
