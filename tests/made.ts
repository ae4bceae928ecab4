/**
 * What several test files need and none of them changes, a build above all, is made once a run: by whichever file needs it first, while
 * the others wait for it. Outside a run of the tests (a benchmark, a script) nothing is shared, and whoever needs it makes it.
 */
import { existsSync, mkdirSync, mkdtempSync, renameSync, rmdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Names the folder of this run to its test files, which are processes of their own. */
const FOLDER = "CLAMPSIDE_TESTS_MADE";

/** Before all test files and after them. */
export default function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), "clampside-made-"));
  process.env[FOLDER] = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}

/** Folder of what goes by the name, made by `make` into the folder that it is given; null outside a run of the tests. */
export function madeOnce(name: string, make: (folder: string) => void): string | null {
  const all = process.env[FOLDER];
  if (all === undefined) return null;
  const [whole, part, lock] = ["", ".part", ".lock"].map((ending) => join(all, name + ending)) as [string, string, string];
  while (!existsSync(whole)) {
    if (!taken(lock)) {
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
      continue;
    }
    try {
      if (existsSync(whole)) break;
      rmSync(part, { recursive: true, force: true });
      make(part);
      renameSync(part, whole);
    } finally {
      rmdirSync(lock);
    }
  }
  return whole;
}

/** Takes a lock, unless somebody has it. */
function taken(lock: string): boolean {
  try {
    mkdirSync(lock);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}
