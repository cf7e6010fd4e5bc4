import type { Problem } from "../../api/types";

/** The words of a problem when its place (a JSON pointer, RFC 6901) begins so: "bowl", "dry mead". */
export function problem_at(problem: Problem | undefined, ...path: string[]): string | undefined {
  if (!problem?.field) return undefined;
  const place = problem.field.split("/").slice(1).map((part) => part.replace(/~1/g, "/").replace(/~0/g, "~"));
  return ["bake", ...path].every((part, i) => part === place[i]) ? problem.detail : undefined;
}
