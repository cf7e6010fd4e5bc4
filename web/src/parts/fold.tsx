// A part of a screen that is there on demand: its key fact stands in its title line. Folded on a phone; at a desk and on paper
// open, unless it is seldom wanted.
import type { ComponentChildren } from "preact";
import { useId, useRef, useState } from "preact/hooks";
import { desk, useMedia } from "../state/media";

interface Folded {
  title: ComponentChildren;
  /** What a baker wants to know of it without opening it. */
  fact?: ComponentChildren;
  /** Folded at a desk too. */
  seldom?: boolean;
  /** Something in it is amiss or was typed: it opens. */
  open?: boolean | undefined;
  /** Grows when it is to be as at first again, whoever opened it. */
  turn?: number;
  children: ComponentChildren;
}

/** What is in it is drawn, and asked for, once it is opened. */
export function Fold({ title, fact, seldom = false, open: told = false, turn = 0, children }: Folded) {
  const id = useId();
  const at_a_desk = useMedia(desk);
  const on_paper = useMedia("print");
  const [chosen_then, set_chosen_then] = useState<{ turn: number; open: boolean } | undefined>(undefined);
  const chosen = chosen_then?.turn === turn ? chosen_then.open : undefined;
  const set_chosen = (open: boolean) => set_chosen_then({ turn, open });
  const seen = useRef(false);
  // It does not close under the hand that puts it right.
  if (told && chosen === undefined) set_chosen(true);
  const open = chosen ?? (told || ((at_a_desk || on_paper) && !seldom));
  seen.current ||= open;
  return (
    <details class="fold" open={open} aria-labelledby={id} onToggle={(e) => e.currentTarget.open !== open && set_chosen(e.currentTarget.open)}>
      <summary>
        <h2 id={id}>{title}</h2>
        {fact !== undefined && <span class="fact quiet small">{fact}</span>}
      </summary>
      {seen.current && <div class="stack tight">{children}</div>}
    </details>
  );
}
