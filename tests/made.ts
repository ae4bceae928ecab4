/**
 * What several test files need and none of them changes, a build above all, is made once a run: by whichever file needs it first, while
 * the others wait for it. Outside a run of the tests (a benchmark, a script) nothing is shared, and whoever needs it makes it.
 */
import { existsSync, renameSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { newFolder, removeRunFolder, RUN_FOLDER } from "./temporary.ts";

/** Before all test files and after them. */
export default function setup(): () => void {
  process.env[RUN_FOLDER] = newFolder();
  // A run that is stopped from outside comes to no end but this.
  process.once("exit", removeRunFolder);
  return removeRunFolder;
}

/** ms that one waits for another who makes the same: a build takes two seconds on a quiet machine. No test's own limit ends the wait, which holds its thread. */
const PATIENCE = 120_000;

/** Folder of what goes by the name, made by `make` into the folder that it is given; null outside a run of the tests. */
export function madeOnce(name: string, make: (folder: string) => void, patience = PATIENCE): string | null {
  const all = process.env[RUN_FOLDER];
  if (all === undefined) return null;
  const whole = join(all, name);
  if (existsSync(whole)) return whole;
  // A lock of the database, since the system takes it from a process that dies: one who waits has it then, and makes what the dead one began.
  const lock = new Database(`${whole}.lock`, { timeout: patience });
  try {
    take(lock, name);
    // What the dead one had started may still write, so each maker has a folder of its own until all is there.
    const part = `${whole}.part-${process.pid}`;
    if (!existsSync(whole)) {
      make(part);
      renameSync(part, whole);
    }
  } finally {
    lock.close();
  }
  return whole;
}

/** Waits for a lock and takes it; gives up in words. */
function take(lock: Database.Database, name: string): void {
  try {
    lock.exec("BEGIN EXCLUSIVE");
  } catch (error) {
    if ((error as { code?: unknown }).code !== "SQLITE_BUSY") throw error;
    throw new Error(`Another test file has been making the ${name} for too long and is not done: look for what holds it up there.`, { cause: error });
  }
}
