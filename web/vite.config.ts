import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";

/** Writes files.json, the names of all that was built: what the service worker keeps for when the server is away. */
const files_for_later: Plugin = {
  name: "files-for-later",
  writeBundle({ dir = "dist" }) {
    const names = readdirSync(join(dir, "assets")).map((name) => `/assets/${name}`);
    writeFileSync(join(dir, "files.json"), JSON.stringify(names));
  },
};

/** The page is of the program's version. */
const version = /project\(barmwright VERSION ([\d.]+)/.exec(readFileSync(new URL("../CMakeLists.txt", import.meta.url), "utf8"))?.[1];
if (version === undefined) throw new Error("CMakeLists.txt says no version of barmwright");

const shared = /src\/(api|parts|say|settings|state|look)\/|node_modules\/(preact|@preact)\//;
/** Wanted by one screen, or late. */
const own = /rise_plot|uplot/;

// `npm run dev` asks a running `barm open --port 8410` for everything under /api.
export default defineConfig({
  base: "/",
  plugins: [files_for_later],
  define: { __BARM_VERSION__: JSON.stringify(version) },
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  build: {
    target: "es2021",
    assetsDir: "assets",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    // One file of styles and one of what several screens share: on a slow phone each file more costs more than its bytes.
    cssCodeSplit: false,
    rollupOptions: { output: { manualChunks: (name) => (shared.test(name) && !own.test(name) ? "shared" : undefined) } },
    outDir: process.env.BARM_PAGE_OUT ?? "dist",
    emptyOutDir: true,
  },
  server: { proxy: { "/api": "http://127.0.0.1:8410" } },
  // One process looks at all files: each keeps to itself, and to start one for each took longer than the tests.
  test: { include: ["tests/unit/**/*.test.ts"], environment: "node", isolate: false },
});
