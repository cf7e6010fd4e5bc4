// Addresses of screens: "#/bake/17/read". Behind the number sign, so that the server serves one page and a reload works
// without it.
import { signal } from "@preact/signals";

export interface Address {
  path: string[];
  query: URLSearchParams;
}

export function address_of(hash: string): Address {
  const [path = "", query = ""] = hash.replace(/^#\/?/, "").split("?", 2);
  return { path: path.split("/").filter(Boolean).map(decode), query: new URLSearchParams(query) };
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export const address = signal<Address>(address_of(typeof location === "undefined" ? "" : location.hash));

export const link = (...path: (string | number)[]) => `#/${path.map((p) => encodeURIComponent(p)).join("/")}`;

export function go(to: string, replace = false): void {
  if (replace) location.replace(to);
  else location.hash = to;
}

/** "bake/:id/read" against an address: the named parts, or nothing. */
export function match(pattern: string, path: readonly string[]): Record<string, string> | undefined {
  const parts = pattern.split("/").filter(Boolean);
  if (parts.length !== path.length) return undefined;
  const found: Record<string, string> = {};
  for (const [i, part] of parts.entries()) {
    const here = path[i] ?? "";
    if (part.startsWith(":")) found[part.slice(1)] = here;
    else if (part !== here) return undefined;
  }
  return found;
}

export function keep_address(): void {
  addEventListener("hashchange", () => {
    address.value = address_of(location.hash);
  });
}
