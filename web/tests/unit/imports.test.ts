import { readFileSync, readdirSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../../src", import.meta.url));
const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((name) => /\.tsx?$/.test(name)).map((name) => join(root, name));
const known = new Set(files);

/** The files that a file imports, types and what is fetched later too. */
function imported(file: string): string[] {
  const text = readFileSync(file, "utf8");
  const named = [...text.matchAll(/(?:from\s+|import\(|^import\s+)"(\.[^"]+)"/gm)].map((m) => normalize(join(dirname(file), m[1] ?? "")));
  return named.flatMap((path) => [`${path}.ts`, `${path}.tsx`, join(path, "index.tsx")].find((one) => known.has(one)) ?? []);
}

it("no file imports itself by way of others", () => {
  const edges = new Map(files.map((file) => [file, imported(file)]));
  expect([...edges.values()].flat().length).toBeGreaterThan(200);
  const done = new Set<string>();
  const circles: string[] = [];
  const walk = (file: string, way: readonly string[]) => {
    const at = way.indexOf(file);
    if (at >= 0) return void circles.push([...way.slice(at), file].map((one) => one.slice(root.length + 1)).join(" → "));
    if (done.has(file)) return undefined;
    for (const next of edges.get(file) ?? []) walk(next, [...way, file]);
    done.add(file);
    return undefined;
  };
  for (const file of files) walk(file, []);
  expect(circles).toEqual([]);
});
