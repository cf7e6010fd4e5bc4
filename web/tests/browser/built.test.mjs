// The built page: small enough, asks nobody else, and pinned without addresses.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { test } from "node:test";
import { gzipSync } from "node:zlib";

const built = process.env.BARM_PAGE ?? fileURLToPath(new URL("../../dist", import.meta.url));
const files = readdirSync(built, { recursive: true }).filter((name) => /\.\w+$/.test(name));

test("all scripts together are under 120 kB gzipped", () => {
  const scripts = files.filter((name) => name.endsWith(".js"));
  assert.ok(scripts.length > 5, "the scripts were found");
  const bytes = scripts.reduce((sum, name) => sum + gzipSync(readFileSync(join(built, name)), { level: 9 }).length, 0);
  console.log(`${scripts.length} scripts, ${(bytes / 1000).toFixed(1)} kB gzipped`);
  assert.ok(bytes < 120_000, `${bytes} bytes`);
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
