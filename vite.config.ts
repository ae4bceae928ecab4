import { defineConfig } from "vite";

/** The page: built into `dist/page`, from where the server sends it; while it is being written, the API comes from a server on its usual port. */
export default defineConfig({
  root: "viz",
  base: "/",
  build: { outDir: "../dist/page", emptyOutDir: true, target: "es2022", assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  server: { proxy: { "/api": "http://127.0.0.1:4717", "/livez": "http://127.0.0.1:4717" } },
});
