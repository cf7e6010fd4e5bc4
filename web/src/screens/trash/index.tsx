// What was thrown away and can be taken back.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { TrashList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { NotYet } from "../../parts/not_yet";
import { after, date, from_utc } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { useHabits } from "../../say/say";

export default function TrashScreen() {
  const habits = useHabits();
  const held = useAnswer<TrashList>("/api/trash", ["bake", "culture", "bottle", "reading", "feeding", "loaf", "photo", "mark", "scale", "test_bake"]);
  const [said, set_said] = useState("");
  const { answer } = held;
  if (!answer) return <NotYet what="trash" held={held} waiting="Looking…" />;
  const take_back = async (item: TrashList["trash"][number]) => {
    try {
      await post(`/api/${plural[item.kind]}/${item.id}/undo`, {});
      set_said(`${item.title || item.kind} is back.`);
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
              <strong>{item.title || item.kind}</strong>
              <span class="quiet small">
                {item.kind.replace("_", " ")}, thrown away {day(item.deleted_at, habits)}, kept until {day(item.deleted_at, habits, 30)}
              </span>
            </span>
            <button type="button" onClick={() => void take_back(item)} aria-label={`Take it back: ${item.kind} ${item.title || item.kind}`}>
              Take it back
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

const day = (text: string, habits: Habits, later = 0) => {
  const at = from_utc(text);
  return at === undefined ? text : date(after(at, 24 * later), habits);
};

const plural: Record<TrashList["trash"][number]["kind"], string> = {
  bake: "bakes",
  culture: "cultures",
  feeding: "feedings",
  bottle: "bottles",
  reading: "readings",
  mark: "marks",
  photo: "photos",
  loaf: "loaves",
  scale: "scales",
  remark: "remarks",
  setting: "settings",
  test_bake: "test-bakes",
  test_member: "test-members",
  equipment: "equipment",
};
