// What all screens of one bake share: its name, its leaves, and the record itself.
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { type Bake, useBake } from "../api/bakes";
import { names } from "../shell/names";
import { link } from "../shell/router";
import { is_late } from "../state/ready_watch";
import { InTrash, NotYet } from "./not_yet";
import { ReadySaid } from "./ready_said";

export const state_words: Record<Bake["state"], string> = {
  draft: "a draft",
  planned: "planned",
  live: "running",
  finished: "finished",
  given_up: "given up",
};

/** Screens with no answer of their own: the same head as on the others stands there too. */
const without_answer = ["Rescue", "Loaf", "Sell", "Show"];

const to_bakes = { list: "bakes", words: "To the bakes" };

export function BakeFrame(props: { id: string; here: string; children: (record: Bake) => ComponentChildren }) {
  const held = useBake(props.id);
  const { answer } = held;
  if (!answer) return <NotYet what="bake" held={held} waiting="Fetching the bake…" {...to_bakes} />;
  if (answer.deleted_at !== null) return <InTrash record={answer} what="bake" route="/api/bakes" {...to_bakes} />;
  return (
    <div class="stack">
      <header class="stack tight">
        <h1>
          {answer.title} <span class="quiet small">{state_words[answer.state]}</span>
        </h1>
        {is_late(props.id) && props.here !== "Rescue" && (
          <div>
            <a class="button" href={link("bake", props.id, "rescue")}>
              Late or stuck: what can be done?
            </a>
          </div>
        )}
        <Leaves id={props.id} here={props.here} />
      </header>
      {without_answer.includes(props.here) && (
        <div class="no-print">
          <ReadySaid record={answer} />
        </div>
      )}
      {props.children(answer)}
    </div>
  );
}

function Leaves({ id, here }: { id: string; here: string }) {
  const row = useRef<HTMLElement>(null);
  useEffect(() => {
    row.current?.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest", inline: "center" });
  }, [here]);
  return (
    <nav class="leaves" ref={row} aria-label="Parts of this bake">
      {names
        .filter((place) => place.found === "bake")
        .map((place) => (
          <a
            key={place.pattern}
            href={link(...place.pattern.split("/").map((part) => (part === ":id" ? id : part)))}
            aria-current={place.title === here ? "page" : undefined}
          >
            {place.title}
          </a>
        ))}
    </nav>
  );
}
