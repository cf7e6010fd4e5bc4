// A table that may be wider than the window: it scrolls in its own frame, by touch and by keys.
import type { ComponentChildren } from "preact";

export function Wide({ name, children }: { name: string; children: ComponentChildren }) {
  return (
    <div class="wide" tabIndex={0} role="region" aria-label={name}>
      {children}
    </div>
  );
}
