// The first week in ten short pages: those of docs/guide, without their pictures.
import type { ComponentChildren } from "preact";
import type { Params } from "../../shell/names";
import { link } from "../../shell/router";

const texts = import.meta.glob<string>("../../../../docs/guide/[0-9]*.md", { query: "?raw", import: "default", eager: true });

interface Page {
  number: number;
  title: string;
  paragraphs: string[];
}

const pages: Page[] = Object.entries(texts)
  .map(([file, text]) => {
    const [title = "", ...rest] = text.split(/\n{2,}/);
    const paragraphs = rest.map((p) => p.trim()).filter((p) => p !== "" && !p.startsWith("!["));
    return { number: Number(/\/(\d+)-[^/]*$/.exec(file)?.[1]), title: title.replace(/^# /, "").trim(), paragraphs };
  })
  .sort((a, b) => a.number - b.number);

/** What stands between two stars is set bold. */
function said(text: string): ComponentChildren {
  return text.split("**").map((part, i) => (i % 2 === 1 ? <strong key={i}>{part}</strong> : part));
}

export default function GuideScreen({ params }: { params: Params }) {
  const page = pages.find((p) => String(p.number) === params.page);
  if (!page) {
    return (
      <div class="stack guide">
        <h1>The first week</h1>
        {params.page !== undefined && <p>The guide has no page {params.page}; these are all of them.</p>}
        <ol class="bare picker">
          {pages.map((p) => (
            <li key={p.number}>
              <a class="button" href={link("guide", p.number)}>
                <span>{p.title}</span>
                <span class="quiet">{p.number}</span>
              </a>
            </li>
          ))}
        </ol>
      </div>
    );
  }
  const next = pages.find((p) => p.number === page.number + 1);
  return (
    <article class="stack guide">
      <p class="quiet small">
        <a href={link("guide")}>The first week</a>, page {page.number} of {pages.length}
      </p>
      <h1>{page.title}</h1>
      {page.paragraphs.map((text) => (
        <p key={text}>{said(text)}</p>
      ))}
      {next && (
        <p>
          <a class="button" href={link("guide", next.number)}>
            Next: {next.title}
          </a>
        </p>
      )}
    </article>
  );
}
