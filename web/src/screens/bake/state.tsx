// Where the bake stands, whose culture it is of, and the way into the trash.
import { useState } from "preact/hooks";
import { put, words_of } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import type { BakeRecord, CultureRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Choice } from "../../parts/field";
import { go, link } from "../../shell/router";
import { throw_away } from "../../state/undo";
import { Refused } from "../../parts/states";

export function State({ record }: { record: Bake }) {
  const cultures = useAnswer<CultureRecordList>("/api/cultures", ["culture"]).answer?.cultures ?? [];
  const [wrong, set_wrong] = useState("");
  const change = (what: Partial<BakeRecord>) =>
    put(`/api/bakes/${record.id}`, { revision: record.revision, ...what }).then(
      () => set_wrong(""),
      (error: unknown) => set_wrong(words_of(error)),
    );
  const away_with_it = async () => {
    try {
      await throw_away("bakes", record.id, record.title);
      go(link("trash"));
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <>
      <div class="pair">
        <Choice
          label="Where it stands"
          value={record.state}
          options={[
            ["draft", "a draft"],
            ["planned", "planned"],
            ["live", "running"],
            ["finished", "finished"],
            ["given_up", "given up"],
          ]}
          give={(state) => void change({ state })}
        />
        <Choice
          label="Culture"
          value={record.culture ?? ""}
          options={[["", "not said"], ...cultures.map((c) => [c.id, c.title] as const)]}
          give={(id) => void change({ culture: id === "" ? null : id })}
        />
      </div>
      <Refused why={wrong} />
      <div class="row">
        <a class="button" href={`${link("compare")}?a=${record.id}`}>
          Compare with another bake
        </a>
        <button type="button" onClick={() => void away_with_it()}>
          Into the trash
        </button>
      </div>
      <p class="quiet small">What is in the trash can be taken back for 30 days.</p>
    </>
  );
}
