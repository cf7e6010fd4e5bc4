// One line of a recipe: what it is, how much, what it weighs; what changes it opens below on a tap.
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

export function RecipeLine(props: {
  name: string;
  amount: string;
  weight: string;
  wrong: boolean;
  open: boolean;
  set_open: (open: boolean) => void;
  children: ComponentChildren;
}) {
  const id = useId();
  return (
    <>
      <button
        type="button"
        class={props.wrong ? "recipe-line amiss" : "recipe-line"}
        aria-expanded={props.open}
        aria-controls={id}
        onClick={() => props.set_open(!props.open)}
      >
        <span class="name">{props.name}</span>
        <span class="quiet">{props.amount}</span>
        <span class="figure">{props.weight}</span>
      </button>
      <div id={id}>{(props.open || props.wrong) && props.children}</div>
    </>
  );
}
