/** Where the project's own files are, whether the server runs from its source or from what was built. */
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

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
