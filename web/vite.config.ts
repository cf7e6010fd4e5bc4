import { defineConfig } from "vitest/config";

// `npm run dev` asks a running `barm open --port 8410` for everything under /api.
export default defineConfig({
  base: "/",
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
