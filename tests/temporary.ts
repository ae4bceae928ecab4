/** Folders for tests, away from the user's own. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Names the folder of this run to its test files, which are processes of their own. */
export const RUN_FOLDER = "CLAMPSIDE_TESTS_MADE";

const made: string[] = [];

/** A new empty folder, within that of the run where there is one: so it ends with the run, even if its test file is stopped, or has every test left out and never comes to its end. */
export function newFolder(): string {
  const folder = mkdtempSync(join(process.env[RUN_FOLDER] ?? tmpdir(), "clampside-"));
  made.push(folder);
  return folder;
}

/** Removes the folder of this run, again and again while something that is being ended still writes there. */
export function removeRunFolder(): void {
  rmSync(process.env[RUN_FOLDER]!, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
}

/** Removes all that were made; for `afterAll`. */
export function removeFolders(): void {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
}
