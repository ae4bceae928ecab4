/** Folders for tests, away from the user's own. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const made: string[] = [];

/** A new empty folder. */
export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "clampside-data-"));
  made.push(folder);
  return folder;
}

/** Removes all that were made; for `afterAll`. */
export function removeFolders(): void {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
}
