// The recipe as the bake file that the terminal program reads.
import { useState } from "preact/hooks";
import { words_of } from "../../api/ask";
import type { BakeAnswer } from "../../api/types";
import { useAsked } from "../../state/asked";
import type { Form } from "../../state/bake";

export function AsFile({ form }: { form: Form }) {
  const [open, set_open] = useState(false);
  const { answer: file, error } = useAsked<BakeAnswer>("/api/bake", open ? { bake: form } : undefined);
  return (
    <details onToggle={(e) => set_open(e.currentTarget.open)}>
      <summary>As a file for the terminal</summary>
      {error ? <p class="note">{words_of(error)}</p> : null}
      {file && (
        <div class="stack tight">
          <pre class="file" tabIndex={0} aria-label={`Bake file of ${file.name}`}>
            {file.text}
          </pre>
          <p>
            <button type="button" onClick={() => download(file)}>
              Save the file
            </button>
          </p>
        </div>
      )}
    </details>
  );
}

function download({ name, text }: { name: string; text: string }): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/toml" }));
  link.download = `${name.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "bake"}.toml`;
  link.click();
  URL.revokeObjectURL(link.href);
}
