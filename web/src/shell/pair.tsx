// A device of the house shows the key that the terminal prints.
import { useState } from "preact/hooks";
import { post, unpaired, words_of } from "../api/ask";
import type { Paired } from "../api/types";
import { Field } from "../parts/field";

export function Pair() {
  const [key, set_key] = useState(new URLSearchParams(location.search).get("key") ?? "");
  const [wrong, set_wrong] = useState<string | undefined>(undefined);
  const pair = async (event: Event) => {
    event.preventDefault();
    try {
      await post<Paired>("/api/pair", { key: key.trim(), device: navigator.platform || "browser" });
      unpaired.value = false;
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <form class="stack" onSubmit={(event) => void pair(event)}>
      <h1>Pair this device</h1>
      <p>The terminal in which the daybook is open shows a key. Type it here once; this browser then remembers.</p>
      <Field label="Key" wrong={wrong}>
        {(attributes) => (
          <input {...attributes} value={key} autocomplete="off" autocapitalize="characters" onInput={(event) => set_key(event.currentTarget.value)} />
        )}
      </Field>
      <button type="submit" class="main">
        Pair
      </button>
    </form>
  );
}
