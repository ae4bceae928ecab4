import { defineConfig, type UserConfig } from "vite";
import { notices } from "./server/build/notices.ts";

/** A package of mathematics finds out by `eval` whether generators are known; the page forbids that, and every browser it is made for knows them. */
const knowsGenerators = {
  name: "knows-generators",
  load: (id: string) => (/assert-has-generator-support\/(?:lib|dist)\/index\.js$/u.test(id) ? "module.exports = () => true;" : null),
};

/** The page: built into `dist/page`, from where the server sends it; while it is being written, the API comes from a server on its usual port. */
const page: UserConfig = {
  root: "viz",
  base: "/",
  build: { outDir: "../dist/page", emptyOutDir: true, target: "es2022", assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [notices(), knowsGenerators],
  server: { proxy: { "/api": "http://127.0.0.1:4717", "/livez": "http://127.0.0.1:4717" } },
};

/**
 * The command, the server and its threads, in few files with the packages they use: a thousand small files would take longer to find and
 * read than a day takes to rehearse. What has a part of its own to load at run time stays outside.
 */
const command: UserConfig = {
  publicDir: false,
  ssr: { noExternal: true, external: ["better-sqlite3", "piscina"] },
  build: {
    outDir: "dist/server",
    emptyOutDir: true,
    target: "node20",
    minify: false,
    rolldownOptions: {
      input: { "cli/main": "server/cli/main.ts", worker: "server/worker.ts", studyleader: "server/studyleader.ts", daysworker: "server/daysworker.ts" },
      output: { entryFileNames: "[name].js", chunkFileNames: "[name]-[hash].js", comments: false },
    },
  },
  plugins: [notices()],
};

export default defineConfig(({ isSsrBuild }) => (isSsrBuild ? command : page));
