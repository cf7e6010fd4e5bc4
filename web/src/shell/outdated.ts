// Whether the server hands out another page than this one, because the program was updated since it was opened. The page knows itself
// by the name of its script, which is made from all it holds; files.json names those of the server's.
import { signal } from "@preact/signals";
import { anew } from "../api/ask";
import { on_news } from "../api/live";

export const outdated = signal(false);

/** The script of this page; none where it is not built (npm run dev). */
const own_script = () => document.querySelector('script[type="module"][src^="/assets/"]')?.getAttribute("src");

export async function look_at_page(): Promise<void> {
  const own = own_script();
  if (!own || outdated.value) return;
  try {
    const answer = await fetch("/files.json", { cache: "no-store" });
    const names: unknown = answer.ok ? await answer.json() : undefined;
    if (Array.isArray(names) && !names.includes(own)) outdated.value = true;
  } catch {
    // Away: asked again when it is back.
  }
}

/** Looks whenever the server may be another program than before. */
export function keep_looking_at_page(): void {
  anew.subscribe(() => void look_at_page());
  on_news((news) => news.what === "connected" && void look_at_page());
}
