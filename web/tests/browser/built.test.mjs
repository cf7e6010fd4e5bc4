// The built page: small enough, asks nobody else, and pinned without addresses.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { test } from "node:test";
import { gzipSync } from "node:zlib";

const built = process.env.BARM_PAGE ?? fileURLToPath(new URL("../../dist", import.meta.url));
const files = readdirSync(built, { recursive: true }).filter((name) => /\.\w+$/.test(name));

const assets = files.filter((name) => name.startsWith("assets/")).map((name) => name.slice("assets/".length));
const packed = (names) => [...names].reduce((sum, name) => sum + gzipSync(readFileSync(join(built, "assets", name)), { level: 9 }).length, 0);
const text_of = (name) => readFileSync(join(built, "assets", name), "utf8");
const chunk = (begins) => assets.filter((name) => name.startsWith(`${begins}-`) && name.endsWith(".js")).sort((a, b) => text_of(b).length - text_of(a).length)[0];

/** A script with all that it cannot do without, styles too. */
function with_needed(name, found = new Set()) {
  if (found.has(name)) return found;
  found.add(name);
  for (const [, needed] of text_of(name).matchAll(/(?:from|import)\s*"\.\/([\w.-]+\.js)"/g)) with_needed(needed, found);
  return found;
}

test("what is fetched before the first screen stands, and before the first recipe, is under 120 kB packed", () => {
  const styles = assets.filter((name) => name.endsWith(".css"));
  const shell = with_needed(chunk("index"));
  for (const [what, screen] of [["today", "today"], ["a first bake", "first"], ["a recipe", "bake"]]) {
    assert.ok(chunk(screen), `the script of ${what} was found`);
    // All styles are counted: they are small, and which come first is the bundler's.
    const bytes = packed(new Set([...shell, ...with_needed(chunk(screen)), ...styles]));
    console.log(`${what}: ${(bytes / 1000).toFixed(1)} kB packed`);
    assert.ok(bytes > 15_000 && bytes < 120_000, `${what}: ${bytes} bytes`);
  }
});

test("the whole page, kept for when the server is away, is under 200 kB packed", () => {
  const bytes = packed(assets.filter((name) => /\.(js|css)$/.test(name)));
  console.log(`${(bytes / 1000).toFixed(1)} kB packed in all`);
  assert.ok(bytes < 200_000, `${bytes} bytes`);
});

test("no style or script stands in the page itself, and nothing is fetched from elsewhere", () => {
  const page = readFileSync(join(built, "index.html"), "utf8");
  assert.doesNotMatch(page, /<style|style=|<script(?![^>]*\bsrc=)/);
  for (const name of files.filter((n) => /\.(js|css|html|webmanifest)$/.test(n))) {
    const text = readFileSync(join(built, name), "utf8");
    const hosts = [...text.matchAll(/https?:\/\/([\w.-]+)/g)].map((m) => m[1]).filter((host) => host !== "www.w3.org");
    assert.deepEqual(hosts, [], name);
  }
});

test("the list of what to keep for later names every file that was built", () => {
  const kept = JSON.parse(readFileSync(join(built, "files.json"), "utf8"));
  assert.deepEqual(kept.sort(), readdirSync(join(built, "assets")).map((name) => `/assets/${name}`).sort());
  assert.ok(kept.length > 10);
});

test("the lock file holds no host name", () => {
  const lock = readFileSync(new URL("../../package-lock.json", import.meta.url), "utf8");
  assert.doesNotMatch(lock, /https?:|"resolved"|@[\w-]+\.(com|org|io)/);
});
