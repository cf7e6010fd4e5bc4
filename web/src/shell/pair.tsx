// A device of the house shows the key that the terminal prints. Its QR code holds the key behind the address, as #pair=KEY.
import { useEffect, useState } from "preact/hooks";
import { let_in, post, words_of } from "../api/ask";
import type { Paired } from "../api/types";
import { Field } from "../parts/field";
import { address, go } from "./router";

/** The key in an address that was scanned; else empty. */
export const scanned_key = (path: readonly string[]) => /^pair=(.+)$/.exec(path[0] ?? "")?.[1] ?? "";

export function Pair() {
  const scanned = scanned_key(address.value.path);
  const [key, set_key] = useState(scanned);
  const [wrong, set_wrong] = useState<string | undefined>(undefined);
  useEffect(() => {
    if (scanned) void pair();
  }, []);
  const pair = async () => {
    try {
      await post<Paired>("/api/pair", { key: key.trim(), device: navigator.platform || "browser" });
      if (scanned) go("#/", true);
      let_in();
    } catch (error) {
      set_wrong(words_of(error));
    }
  };
  return (
    <form class="stack" onSubmit={(event) => {
        event.preventDefault();
        void pair();
      }}
    >
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
