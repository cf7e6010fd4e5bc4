import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";

/** Writes files.json, the names of all that was built: what the service worker keeps for when the server is away. */
const files_for_later: Plugin = {
  name: "files-for-later",
  generateBundle(_options, bundle) {
    const source = JSON.stringify(Object.keys(bundle).filter((name) => name.startsWith("assets/")).map((name) => `/${name}`));
    this.emitFile({ type: "asset", fileName: "files.json", source });
  },
};

// `npm run dev` asks a running `barm open --port 8410` for everything under /api.
export default defineConfig({
  base: "/",
  plugins: [files_for_later],
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  build: {
    target: "es2021",
    assetsDir: "assets",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    outDir: process.env.BARM_PAGE_OUT ?? "dist",
    emptyOutDir: true,
  },
  server: { proxy: { "/api": "http://127.0.0.1:8410" } },
  test: { include: ["tests/unit/**/*.test.ts"], environment: "node" },
});
