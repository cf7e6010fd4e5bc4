// An invented bakery to look round in: put into an empty daybook, and thrown away again.
import { useState } from "preact/hooks";
import { post, remove, words_of } from "../../api/ask";
import { Refused } from "../../parts/states";

function Asking({ words, ask }: { words: string; ask: () => Promise<unknown> }) {
  const [wrong, set_wrong] = useState("");
  const [asking, set_asking] = useState(false);
  const go = async () => {
    set_asking(true);
    await ask().catch((error: unknown) => set_wrong(words_of(error)));
    set_asking(false);
  };
  return (
    <>
      <button type="button" disabled={asking} onClick={() => void go()}>
        {words}
      </button>
      <Refused why={wrong} />
    </>
  );
}

export const LookRound = () => <Asking words="Look round with an invented bakery" ask={() => post("/api/demo", {})} />;

/** Says that what is seen is invented, and takes it away. */
export function Invented({ invented }: { invented: boolean }) {
  if (!invented) return null;
  return (
    <div class="note row apart invented">
      <span class="small">This bakery is invented: try anything.</span>
      <Asking words="Throw it away" ask={() => remove("/api/demo")} />
    </div>
  );
}
