// Something to type into, with its label, its unit and what is wrong with it.
import type { ComponentChildren, JSX } from "preact";
import { useEffect, useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Typed } from "../say/typed";

/** Brings a field that was refused into sight, out of what is folded; never away from one that is being typed into. */
function useRevealed(field: { current: HTMLElement | null }, wrong: string | undefined): void {
  useEffect(() => {
    const here = field.current;
    if (!wrong || !here) return undefined;
    const reveal = () => {
      for (let fold = here.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
      const { top, bottom } = here.getBoundingClientRect();
      const head = document.querySelector(".head-of-all")?.getBoundingClientRect().bottom ?? 0;
      if (top < head || bottom > innerHeight - 80) here.scrollIntoView({ block: "center" });
    };
    const typing = document.activeElement;
    if (!(typing instanceof HTMLInputElement) || here.contains(typing)) {
      if (!here.contains(typing)) reveal();
      return undefined;
    }
    typing.addEventListener("blur", reveal, { once: true });
    return () => typing.removeEventListener("blur", reveal);
  }, [wrong]);
}

export function Field(props: {
  label: ComponentChildren;
  hidden_label?: boolean;
  wrong?: string | undefined;
  hint?: ComponentChildren;
  children: (attributes: { id: string; "aria-invalid"?: "true"; "aria-describedby"?: string }) => ComponentChildren;
}) {
  const id = useId();
  const field = useRef<HTMLDivElement>(null);
  useRevealed(field, props.wrong);
  const told = props.wrong ? `${id}-wrong` : props.hint ? `${id}-hint` : undefined;
  return (
    <div class="field" ref={field}>
      <label for={id} class={props.hidden_label ? "unseen" : "small"}>
        {props.label}
      </label>
      {props.children({
        id,
        ...(props.wrong ? { "aria-invalid": "true" as const } : {}),
        ...(told ? { "aria-describedby": told } : {}),
      })}
      {props.wrong ? (
        <span class="wrong" id={`${id}-wrong`} role="alert">
          {props.wrong}
        </span>
      ) : (
        props.hint && (
          <span class="quiet small" id={`${id}-hint`}>
            {props.hint}
          </span>
        )
      )}
    </div>
  );
}

/** A figure that is read as it is typed. What cannot be read stays in the field with the reason; nothing is changed. */
export function Figure<Value>(props: {
  label: ComponentChildren;
  hidden_label?: boolean;
  shown: string;
  read: (text: string) => Typed<Value>;
  give: (value: Value) => void;
  wrong?: string | undefined;
  hint?: ComponentChildren;
  input?: JSX.InputHTMLAttributes<HTMLInputElement>;
}) {
  const [typed, set_typed] = useState<string | undefined>(undefined);
  const [why, set_why] = useState<string | undefined>(undefined);
  const input = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => {
    // The attribute counts only for what was there when the page was opened. At once: a key pressed before the focus comes
    // would be wiped by it.
    if (props.input?.autoFocus) input.current?.focus();
  }, []);
  useEffect(() => {
    // A value that came from elsewhere replaces what was typed before.
    if (document.activeElement === input.current) return;
    set_typed(undefined);
    set_why(undefined);
  }, [props.shown]);
  return (
    <Field label={props.label} hidden_label={props.hidden_label ?? false} wrong={why ?? props.wrong} hint={props.hint}>
      {(attributes) => (
        <input
          {...props.input}
          {...attributes}
          data-unread={why === undefined ? undefined : "true"}
          inputMode={props.input?.inputMode ?? "decimal"}
          autocomplete="off"
          value={typed ?? props.shown}
          ref={input}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => {
            const text = event.currentTarget.value;
            set_typed(text);
            const read = props.read(text);
            set_why(read.ok ? undefined : read.why);
            if (read.ok) props.give(read.value);
          }}
          onBlur={() => {
            if (why === undefined) set_typed(undefined);
          }}
        />
      )}
    </Field>
  );
}

export function Tick(props: { label: string; value: boolean; give: (value: boolean) => void }) {
  return (
    <label class="entry">
      <span>{props.label}</span>
      <input type="checkbox" checked={props.value} onChange={(event) => props.give(event.currentTarget.checked)} />
    </label>
  );
}

export function Choice<Value extends string>(props: {
  label: string;
  hidden_label?: boolean;
  value: Value;
  options: readonly (readonly [Value, string])[];
  give: (value: Value) => void;
  hint?: ComponentChildren;
}) {
  return (
    <Field label={props.label} hidden_label={props.hidden_label ?? false} hint={props.hint}>
      {(attributes) => (
        <select {...attributes} value={props.value} onChange={(event) => props.give(event.currentTarget.value as Value)}>
          {props.options.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
