/** A built house in a folder of its own: the command, the server and its threads as `npm run build` makes them; and the built page. */
import { execFileSync } from "node:child_process";
import { cpSync, rmSync, symlinkSync } from "node:fs";
import { join, resolve } from "node:path";
import { madeOnce } from "../made.ts";
import { newFolder } from "../temporary.ts";

const ROOT = resolve(import.meta.dirname, "../..");
const VITE = join(ROOT, "node_modules", "vite", "bin", "vite.js");

/** ms that a hook which builds may take: two seconds on a quiet machine, many times that on a busy one. */
export const BUILDING_MS = 120_000;

export interface BuiltHouse {
  readonly folder: string;
  /** address of an entry of the build, e.g. `worker.js` */ url(file: string): URL;
  remove(): void;
}

/** Runs the builder: `words` say what, `folder` where to. */
function build(folder: string, ...words: string[]): void {
  execFileSync(process.execPath, [VITE, "build", ...words, "--outDir", folder, "--logLevel", "warn"], { cwd: ROOT, stdio: ["ignore", "ignore", "inherit"], env: { ...process.env, NODE_ENV: "production" } });
}

/** Puts the built page into a folder that is not there yet. */
export function buildPage(folder: string): void {
  const made = madeOnce("page", (shared) => build(shared, "--emptyOutDir"));
  if (made === null) build(folder, "--emptyOutDir");
  else cpSync(made, folder, { recursive: true });
}

/** A house in a new folder for tests; call `remove` at the end. `only`: one module of the source by itself, `name.js`, instead of the whole. */
export function buildHouse(only?: string): BuiltHouse {
  const folder = newFolder();
  const dist = join(folder, "dist", "server");
  const made = only === undefined ? madeOnce("server", (shared) => build(shared, "--ssr")) : null;
  if (made === null) build(dist, "--ssr", ...(only === undefined ? [] : [only]));
  else cpSync(made, dist, { recursive: true });
  cpSync(join(ROOT, "package.json"), join(folder, "package.json"));
  cpSync(join(ROOT, "scenarios"), join(folder, "scenarios"), { recursive: true });
  symlinkSync(join(ROOT, "node_modules"), join(folder, "node_modules"));
  return {
    folder,
    url: (file) => new URL(`file://${join(dist, file)}`),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
