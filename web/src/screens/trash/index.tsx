// What was thrown away and can be taken back.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { TrashList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { Failed, Waiting } from "../../parts/states";
import { date, moment_of } from "../../say/clock";

export default function TrashScreen() {
  const held = useAnswer<TrashList>("/api/trash", ["bake", "culture", "bottle", "reading", "feeding", "loaf", "photo"]);
  const [said, set_said] = useState("");
  const { answer, error } = held;
  if (!answer) return error ? <Failed error={error} again={held.again} /> : <Waiting what="Looking…" />;
  const take_back = async (item: TrashList["trash"][number]) => {
    try {
      await post(`/api/trash/${item.kind}/${item.id}`, {});
      set_said(`${item.name} is back.`);
      held.again();
    } catch (trouble) {
      set_said(words_of(trouble));
    }
  };
  return (
    <div class="stack">
      <h1>Trash</h1>
      <p role="status">{said}</p>
      {answer.trash.length === 0 && <p>Nothing is in the trash.</p>}
      <ul class="bare stack tight">
        {answer.trash.map((item) => (
          <li key={`${item.kind} ${item.id}`} class="sheet row apart">
            <span class="stack tight">
              <strong>{item.name}</strong>
              <span class="quiet small">
                {item.kind}, thrown away {day(item.deleted_at)}, kept until {day(item.kept_until)}
              </span>
            </span>
            <button type="button" onClick={() => void take_back(item)} aria-label={`Take it back: ${item.kind} ${item.name}`}>
              Take it back
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

const day = (text: string) => {
  const at = moment_of(text);
  return at === undefined ? text : date(at);
};
