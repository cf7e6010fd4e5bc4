// The curves of any two bakes on one picture, in hours after mixing.
import { useMemo } from "preact/hooks";
import { mixed_of, useBake } from "../../api/bakes";
import type { BakeRecordList, ForeseeAnswer, ReadingRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice } from "../../parts/field";
import { Failed, Waiting } from "../../parts/states";
import { Rise, worth_seeing } from "../../parts/rise";
import type { RiseRun } from "../../parts/rise_run";
import { date, from_utc, now } from "../../say/clock";
import { lasting, percent, useHabits } from "../../say/say";
import { address, go, link } from "../../shell/router";
import { useForesight } from "../../state/foresight";
import { readings_of_bake, useReadOfIt } from "../../state/known_readings";
import { ratios } from "../../state/readings";

interface Side {
  name: string;
  answer: ForeseeAnswer | undefined;
  run: RiseRun | undefined;
  error: unknown;
}

function useSide(id: string): Side {
  const bake = useBake(id || undefined).answer;
  const readings = useAnswer<ReadingRecordList>(id ? readings_of_bake(id) : undefined, ["reading"]).answer?.readings;
  const mixed = bake ? mixed_of(bake, bake.form) : undefined;
  const { answer, error } = useForesight(bake?.form, bake, useReadOfIt(bake, mixed));
  const run = useMemo(
    () => (answer && bake ? { name: bake.title, points: worth_seeing(answer), readings: ratios(readings ?? [], mixed) } : undefined),
    [answer, bake, readings, mixed],
  );
  return { name: bake?.title ?? "", answer, run, error };
}

export default function CompareScreen() {
  const habits = useHabits();
  const { query } = address.value;
  const bakes = useAnswer<BakeRecordList>("/api/bakes?limit=200", ["bake"]).answer?.bakes;
  const a = query.get("a") ?? (bakes?.[0]?.id ?? "");
  const b = query.get("b") ?? (bakes?.find((x) => x.id !== a)?.id ?? "");
  if (!bakes) return <Waiting what="Turning the pages…" />;
  if (bakes.length < 2) {
    return (
      <div class="stack">
        <h1>Compare two bakes</h1>
        <p>
          It takes two bakes, and {bakes.length === 0 ? "none is" : "only one is"} written down.{" "}
          {bakes.length === 0 ? <><a href={link("first")}>Your first bake</a> takes a minute.</> : <><a href={link("new")}>Write another</a>.</>}
        </p>
      </div>
    );
  }
  const options = bakes.map((x) => [x.id, x.mixed_at ? `${x.title}, ${date(from_utc(x.mixed_at) ?? now(), habits)}` : x.title] as const);
  const choose = (key: "a" | "b", id: string) => {
    const next = new URLSearchParams({ a, b, [key]: id });
    go(`${link("compare")}?${next}`, true);
  };
  return (
    <div class="stack">
      <h1>Compare two bakes</h1>
      <div class="pair">
        <Choice label="One bake" value={a} options={options} give={(id) => choose("a", id)} />
        <Choice label="Another" value={b} options={options} give={(id) => choose("b", id)} />
      </div>
      <Pair key={`${a} ${b}`} a={a} b={b} />
    </div>
  );
}

/** Of two bakes that stay the same two. */
function Pair({ a, b }: { a: string; b: string }) {
  const habits = useHabits();
  const [first, second] = [useSide(a), useSide(b)];
  const runs = useMemo(() => {
    const both = [first.run, second.run].filter((r): r is RiseRun => r !== undefined);
    // Two bakes of one name are told apart.
    return both.map((run, i) => (both.findIndex((other) => other.name === run.name) === i ? run : { ...run, name: `${run.name} (second)` }));
  }, [first.run, second.run]);
  return (
    <>
      {[first, second].map((side, i) => (side.error ? <Failed key={i} error={side.error} /> : null))}
      {[first, second].some((side) => !side.answer && !side.error) && <Waiting what="Looking ahead for both…" />}
      {runs.length > 0 && <Rise runs={runs} mixed={undefined} habits={habits} title="Rise of two bakes, hours after mixing" />}
      {first.answer && second.answer && (
        <table>
          <thead>
            <tr>
              <th scope="col">what</th>
              <th scope="col">{first.name}</th>
              <th scope="col">{second.name}</th>
            </tr>
          </thead>
          <tbody>
            {rows(first.answer, second.answer).map(([what, x, y]) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td>{x}</td>
                <td>{y}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );

  function rows(x: ForeseeAnswer, y: ForeseeAnswer): [string, string, string][] {
    const hours = (h: number | null, of: ForeseeAnswer) => (h === null ? `not within ${lasting(of.horizon_h)}` : lasting(h));
    const window = (of: ForeseeAnswer) => `${hours(of.ready.p10_h, of)} to ${hours(of.ready.p90_h, of)}`;
    return [
      ["ready after, most likely", hours(x.ready.p50_h, x), hours(y.ready.p50_h, y)],
      ["likely between", window(x), window(y)],
      ["real water, of the flour", percent(x.bowl.real_water_of_flour, habits), percent(y.bowl.real_water_of_flour, habits)],
      ["alcohol, of the dough", percent(x.bowl.ethanol_of_dough, habits), percent(y.bowl.ethanol_of_dough, habits)],
    ];
  }
}
