// What the device asks for or is (a media query), heard as it changes.
import { useEffect, useState } from "preact/hooks";

/** The window that the styles lay out as a desk. */
export const desk = "(min-width: 60rem)";

export function useMedia(query: string): boolean {
  const [asked] = useState(() => matchMedia(query));
  const [matches, set_matches] = useState(asked.matches);
  useEffect(() => {
    const hear = () => set_matches(asked.matches);
    asked.addEventListener("change", hear);
    return () => asked.removeEventListener("change", hear);
  }, [asked]);
  return matches;
}
