// The test bake as others may see it: one page and pictures, made by the server and kept where the browser keeps what it
// fetches.
import { useEffect, useMemo, useState } from "preact/hooks";
import type { TestBakeShowAnswer } from "../../api/types";
import { Field, Tick } from "../../parts/field";
import { Work } from "../../parts/long_work";
import { useTyping } from "../../state/drafts";
import { useLongWork } from "../../state/long_work";

type ShownFile = TestBakeShowAnswer["files"][number];

const media_types: Record<string, string> = { html: "text/html", svg: "image/svg+xml", png: "image/png" };

const pictures: Record<string, string> = {
  whiteboard: "The whiteboard",
  map: "How far the drink can go",
  curves: "How the doughs rose",
  causes: "What slows it",
};

/** "curves-16x9.png" as words. */
export function named(file: string): string {
  const [, what = file, shape = "", kind = ""] = /^(.*?)(?:-(\d+x\d+))?\.(\w+)$/.exec(file) ?? [];
  if (kind === "html") return "The page";
  const title = pictures[what] ?? (what.startsWith("dose") ? "Speed against dose" : what);
  return `${title}, ${shape === "9x16" ? "upright" : shape === "1x1" ? "square" : "wide"}, ${kind.toUpperCase()}`;
}

/** Addresses of the files within this page, let go when it is left. */
function useAddresses(files: readonly ShownFile[]): { file: ShownFile; address: string }[] {
  const made = useMemo(
    () =>
      files.map((file) => {
        const bytes = Uint8Array.from(atob(file.base64), (letter) => letter.charCodeAt(0));
        const type = media_types[file.name.split(".").pop() ?? ""] ?? "application/octet-stream";
        return { file, address: URL.createObjectURL(new Blob([bytes], { type })) };
      }),
    [files],
  );
  useEffect(() => () => made.forEach((one) => URL.revokeObjectURL(one.address)), [made]);
  return made;
}

/** A question with two answers, to paste where it is shown. */
function Poll({ question }: { question: string }) {
  const typing = useTyping("poll", { ask: "", yes: "Yes, the drink", no: "No, something else" });
  const { yes, no } = typing.value;
  const ask = typing.value.ask || question;
  const [said, set_said] = useState("");
  const copy = () =>
    navigator.clipboard.writeText([ask, `1: ${yes}`, `2: ${no}`].join("\n")).then(
      () => set_said("It can be pasted now."),
      () => set_said("This browser does not let the page copy: mark the text and copy it."),
    );
  const field = (label: string, key: "ask" | "yes" | "no", value: string) => (
    <Field label={label}>{(attributes) => <input {...attributes} value={value} onInput={(e) => typing.set({ [key]: e.currentTarget.value })} />}</Field>
  );
  return (
    <details>
      <summary>A poll with two answers</summary>
      <div class="stack tight">
        {field("Question", "ask", ask)}
        <div class="pair">
          {field("One answer", "yes", yes)}
          {field("The other", "no", no)}
        </div>
        <pre class="poll" tabIndex={0} aria-label="The poll as text">{`${ask}\n1: ${yes}\n2: ${no}`}</pre>
        <div>
          <button type="button" onClick={() => void copy()}>
            Copy the poll
          </button>
        </div>
        <p role="status">{said}</p>
      </div>
    </details>
  );
}

const none: readonly ShownFile[] = [];

export function Show({ what, remark, title }: { what: object; remark: string; title: string }) {
  const work = useLongWork<TestBakeShowAnswer>("testbake-show");
  const [remarks, set_remarks] = useState(false);
  const [prices, set_prices] = useState(false);
  const made = useAddresses(work.answer?.files ?? none);
  const left_in = [...(remarks ? ["remarks"] : []), ...(prices ? ["prices"] : [])];
  return (
    <div class="stack">
      <p>One page that stands alone, and each picture on paper: wide, square and upright. Prices and your remark stay out of it unless you ask for them.</p>
      <Tick label="Show prices" value={prices} give={set_prices} />
      {remark && <Tick label="Show the remark" value={remarks} give={set_remarks} />}
      <Work work={work} aside={made.length > 0} words="Make the page and the pictures" begin={() => work.begin(left_in.length ? { ...what, with: left_in } : what)} />
      {made.length > 0 && (
        <ul class="bare shown-files" aria-label="What was made">
          {made.map(({ file, address }) => (
            <li key={file.name} class="stack tight">
              {file.name.endsWith(".png") && <img src={address} alt={`Preview of ${named(file.name)}`} />}
              <a class={file.name.endsWith(".html") ? "button main" : "button"} href={address} download={file.name}>
                {named(file.name)}
              </a>
            </li>
          ))}
        </ul>
      )}
      <Poll question={title} />
    </div>
  );
}
