// What the doughs of a culture have taught about it, in words: each dough that was read says how it differed from the book.
import { useState } from "preact/hooks";
import { get, post } from "../../api/ask";
import { get_bake, mixed_of } from "../../api/bakes";
import { typed_reading } from "../../api/reading_words";
import { worth_telling } from "../read/seen";
import type { BakeRecordList, CultureRecord, ReadAnswer, ReadingRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Failed, Waiting } from "../../parts/states";
import { date } from "../../say/clock";
import { link } from "../../shell/router";

type Listed = BakeRecordList["bakes"][number];

const at_most = 5;

interface Taught {
  bake: Listed;
  when: string;
  words: readonly string[];
}

async function taught_by(bake: Listed): Promise<Taught> {
  const [record, { readings }] = await Promise.all([get_bake(bake.id), get<ReadingRecordList>(`/api/readings?owner=${bake.id}&limit=500`)]);
  const mixed = mixed_of(record, record.form);
  if (mixed === undefined) return { bake, when: "", words: [] };
  const typed = readings.flatMap((r) => typed_reading(r, mixed) ?? []);
  const answer = await post<ReadAnswer>("/api/read", { bake_id: bake.id, readings: typed });
  return { bake, when: date(mixed), words: worth_telling(answer.taught) };
}

export function Memory({ culture }: { culture: CultureRecord }) {
  const bakes = useAnswer<BakeRecordList>("/api/bakes?limit=500", ["bake", "reading"]).answer?.bakes ?? [];
  const own = bakes.filter((b) => b.culture === culture.id && b.readings >= 2);
  const [taught, set_taught] = useState<readonly Taught[] | undefined>(undefined);
  const [asking, set_asking] = useState(false);
  const [error, set_error] = useState<unknown>(undefined);
  const ask = async () => {
    set_asking(true);
    set_error(undefined);
    try {
      const all: Taught[] = [];
      for (const bake of own.slice(0, at_most)) {
        all.push(await taught_by(bake));
        set_taught([...all]);
      }
    } catch (trouble) {
      set_error(trouble);
    } finally {
      set_asking(false);
    }
  };
  return (
    <section class="stack tight" aria-labelledby="memory">
      <h2 id="memory">What it has taught</h2>
      {own.length === 0 ? (
        <p class="quiet">
          Nothing yet. Name this culture in a bake and read the dough twice: what your own doughs do tells more than any book.
        </p>
      ) : (
        !taught &&
        !asking && (
          <div>
            <button type="button" onClick={() => void ask()}>
              Ask its {own.length === 1 ? "dough" : `last ${Math.min(own.length, at_most)} doughs`}
            </button>
          </div>
        )
      )}
      {taught?.map(({ bake, when, words }) => (
        <div key={bake.id} class="note stack tight">
          <h3>
            <a href={link("bake", bake.id, "read")}>{bake.title}</a> <span class="quiet small">{when}</span>
          </h3>
          {words.length === 0 ? (
            <p>It did as the book says.</p>
          ) : (
            <ul>
              {words.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          )}
        </div>
      ))}
      {asking && <Waiting what="Reading the doughs again…" />}
      {error ? <Failed error={error} again={() => void ask()} /> : null}
    </section>
  );
}
