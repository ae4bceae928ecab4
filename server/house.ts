/** Where the project's own files are, whether the server runs from its source or from what was built. */
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

/** True in what was built, false in the TypeScript source: threads, and whoever installed the package, read JavaScript only. */
export const IS_BUILT = import.meta.url.endsWith(".js");

/** Address of an entry of the build, e.g. `worker.js`. */
export const entry = (name: string): URL => pathToFileURL(join(house(), "dist", "server", name));

/** The nearest folder above this file that holds the project's `package.json`. */
export function house(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, "package.json"))) {
    const above = dirname(folder);
    if (above === folder) throw new Error("The server does not stand inside its project: there is no package.json above it.");
    folder = above;
  }
  return folder;
}
