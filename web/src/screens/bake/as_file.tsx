// The recipe as the bake file that the terminal program reads.
import { useState } from "preact/hooks";
import { post, words_of } from "../../api/ask";
import type { BakeAnswer } from "../../api/types";
import type { Form } from "../../state/bake";

export function AsFile({ form }: { form: Form }) {
  const [file, set_file] = useState<{ name: string; text: string } | undefined>(undefined);
  const [wrong, set_wrong] = useState("");
  const fetch_text = () =>
    post<BakeAnswer>("/api/bake", { bake: form }).then(
      ({ name, text }) => set_file({ name, text }),
      (error: unknown) => set_wrong(words_of(error)),
    );
  return (
    <details
      onToggle={(e) => {
        set_wrong("");
        if (e.currentTarget.open) void fetch_text();
      }}
    >
      <summary>As a file for the terminal</summary>
      {wrong && <p class="note">{wrong}</p>}
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
