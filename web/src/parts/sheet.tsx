// A sheet over the page: a question that wants an answer before anything else. The browser's own dialog keeps the focus.
import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";

export function Sheet(props: { title: string; close: () => void; children: ComponentChildren }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const here = dialog.current;
    const before = document.activeElement;
    here?.showModal();
    return () => {
      // Everything behind an open dialog is out of reach: close it first.
      here?.close();
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        props.close();
      }}
      onClick={(event) => {
        if (event.target === dialog.current) props.close();
      }}
    >
      <div class="stack">
        <div class="row apart">
          <h2 id={id}>{props.title}</h2>
          <button type="button" class="square" aria-label="Close" onClick={props.close}>
            ✕
          </button>
        </div>
        {props.children}
      </div>
    </dialog>
  );
}
