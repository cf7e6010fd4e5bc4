// The scores a house gives its loaves: those it began with and those it defined itself. Kept in this browser; a loaf keeps
// its own.
const place = "barm.scores";
const first = ["crust", "crumb", "taste"];

export function scores_of_the_house(another?: string): string[] {
  let known = first;
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(place) ?? "null");
    if (Array.isArray(kept)) known = kept.filter((k): k is string => typeof k === "string");
  } catch {
    known = first;
  }
  if (another && !known.includes(another)) {
    known = [...known, another];
    localStorage.setItem(place, JSON.stringify(known));
  }
  return known;
}
