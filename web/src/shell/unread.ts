// What a field cannot read is never passed over. A press on what would act on the value before it, a form's button or the main one of a
// screen, brings the field into sight instead.

function held_back(event: Event, within: Element | null): void {
  const field = within?.querySelector<HTMLInputElement>("[data-unread]");
  if (!field) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  for (let fold = field.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
  field.focus();
  field.scrollIntoView({ block: "center" });
}

/** Before any screen hears of the press. */
export function keep_what_is_unread(): void {
  document.addEventListener("submit", (event) => held_back(event, event.target as Element), true);
  document.addEventListener(
    "click",
    (event) => {
      const button = (event.target as Element).closest("button.main");
      if (button?.getAttribute("type") === "button") held_back(event, button.closest("form, dialog, section, main"));
    },
    true,
  );
}
