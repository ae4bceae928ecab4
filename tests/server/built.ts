/** A built house in a folder of its own: the command, the server and its threads as `npm run build` makes them. */
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const ROOT = resolve(import.meta.dirname, "../..");
const VITE = join(ROOT, "node_modules", "vite", "bin", "vite.js");

/** ms that a hook which builds may take: two seconds on a quiet machine, many times that on a busy one. */
export const BUILDING_MS = 120_000;

export interface BuiltHouse {
  readonly folder: string;
  /** address of an entry of the build, e.g. `worker.js` */ url(file: string): URL;
  remove(): void;
}

/** Builds into a new folder under the system's own for such things; call `remove` at the end. `only`: one module of the source by itself, `name.js`, instead of the whole. */
export function buildHouse(only?: string): BuiltHouse {
  const folder = mkdtempSync(join(tmpdir(), "clampside-built-"));
  const dist = join(folder, "dist", "server");
  execFileSync(process.execPath, [VITE, "build", "--ssr", ...(only ? [only] : []), "--outDir", dist, "--logLevel", "warn"], { cwd: ROOT, stdio: ["ignore", "ignore", "inherit"], env: { ...process.env, NODE_ENV: "production" } });
  cpSync(join(ROOT, "package.json"), join(folder, "package.json"));
  cpSync(join(ROOT, "scenarios"), join(folder, "scenarios"), { recursive: true });
  symlinkSync(join(ROOT, "node_modules"), join(folder, "node_modules"));
  return {
    folder,
    url: (file) => new URL(`file://${join(dist, file)}`),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
