// Text that is asked about when its field is left. Half typed it is kept at every key, so that neither an answer that comes
// meanwhile nor a screen that is left takes it away.
import type { ComponentChildren } from "preact";
import { Field } from "../../parts/field";
import { useTyping } from "../../state/drafts";

interface Asked {
  /** Of the draft that holds it while it is half typed. */
  name: string;
  label: string;
  hint: ComponentChildren;
  wrong: string | undefined;
  value: string;
  give: (text: string) => void;
  lines?: boolean;
}

export function Words({ name, label, hint, wrong, value, give, lines }: Asked) {
  const half = useTyping<{ text?: string }>(name, {});
  const shown = half.value.text ?? value;
  const entry = {
    value: shown,
    autocomplete: "off",
    onInput: (event: Event) => half.set({ text: (event.currentTarget as HTMLInputElement | HTMLTextAreaElement).value }),
    onBlur: () => {
      if (shown !== value) give(shown);
      half.clear();
    },
  };
  return (
    <Field label={label} hint={hint} wrong={wrong}>
      {(attributes) => (lines ? <textarea {...attributes} {...entry} class="file" /> : <input {...attributes} {...entry} />)}
    </Field>
  );
}
