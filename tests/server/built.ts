/** A built house in a folder of its own: the JavaScript that `npm run build` makes of `sim` and `server`, without its type check. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import ts from "typescript";

const ROOT = resolve(import.meta.dirname, "../..");

/** ms that a hook which builds may take: two seconds on a quiet machine, many times that on a busy one. */
export const BUILDING_MS = 120_000;

export interface BuiltHouse {
  readonly folder: string;
  /** address of a built file, e.g. `server/worker.js` */ url(file: string): URL;
  remove(): void;
}

/** Builds into a new folder under the system's own for such things; call `remove` at the end. */
export function buildHouse(): BuiltHouse {
  const folder = mkdtempSync(join(tmpdir(), "clampside-built-"));
  const { compilerOptions } = ts.parseConfigFileTextToJson("tsconfig.json", readFileSync(join(ROOT, "tsconfig.json"), "utf8")).config as {
    compilerOptions: Record<string, unknown>;
  };
  const { options } = ts.convertCompilerOptionsFromJson({ ...compilerOptions, module: "ESNext", moduleResolution: "Bundler", noEmit: false }, ROOT);
  for (const room of ["sim", "server"]) {
    for (const name of readdirSync(join(ROOT, room), { recursive: true, encoding: "utf8" })) {
      if (!name.endsWith(".ts") || name.endsWith(".d.ts")) continue;
      const from = join(ROOT, room, name);
      const to = join(folder, "dist", room, name.replace(/\.ts$/, ".js"));
      mkdirSync(dirname(to), { recursive: true });
      writeFileSync(to, ts.transpileModule(readFileSync(from, "utf8"), { compilerOptions: options, fileName: from }).outputText);
    }
  }
  cpSync(join(ROOT, "package.json"), join(folder, "package.json"));
  cpSync(join(ROOT, "scenarios"), join(folder, "scenarios"), { recursive: true });
  symlinkSync(join(ROOT, "node_modules"), join(folder, "node_modules"));
  return {
    folder,
    url: (file) => new URL(`file://${join(folder, "dist", file)}`),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
