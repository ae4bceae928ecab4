/**
 * The database file of a data folder: opened for this process alone, checked, and brought to the newest tables with a copy of what was
 * there before. A write-ahead log with full sync: what was committed outlives the process and, as far as the disk is honest, the power;
 * answers alone are not waited for, see answers.ts.
 */
import { closeSync, fsyncSync, openSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { ensureFolder, ensureWritable } from "./folder.ts";
import { MIGRATIONS } from "./migrations.ts";
import { troubleOf, troubles } from "./trouble.ts";

export type Database = Sqlite.Database;

/** Name of the one file that matters in a data folder. */
export const DATABASE_FILE = "clampside.sqlite";
/** What is committed is on the disk. */
export const FULL_SYNC = "synchronous = FULL";
/** "CLSD": says in the file's own head whose it is. */
const APPLICATION_ID = 0x434c5344;
/** ms to wait for a server that is just ending. */
const PATIENCE = 1_500;

export interface OpenOptions {
  /** bytes that the file may grow to */ readonly mostBytes: number;
  /** the tables' steps; others than the usual in tests of migration only */ readonly migrations?: readonly string[];
}

/**
 * Opens the folder's database, making both where they are not there yet; `null` for one in memory, gone with the process.
 * @throws StoreTrouble in the user's words; the file is then as it was
 */
export function openDatabase(folder: string | null, { mostBytes, migrations = MIGRATIONS }: OpenOptions): Database {
  if (folder === null) return prepared(new Sqlite(":memory:"), mostBytes, () => {}, migrations);
  ensureFolder(folder);
  const file = join(folder, DATABASE_FILE);
  ensureWritable(folder, file);
  let database: Database | undefined;
  try {
    database = new Sqlite(file, { timeout: PATIENCE });
    return prepared(database, mostBytes, (from) => checkAndCopy(database!, folder, from, migrations.length), migrations);
  } catch (error) {
    database?.close();
    const trouble = troubleOf(error, file, folder);
    if (trouble?.kind === "damaged") throw troubles.damaged(file, copiesIn(folder), error);
    throw trouble ?? error;
  }
}

const copiesIn = (folder: string): string[] => readdirSync(folder).filter((name) => name.startsWith("before-") && name.endsWith(".sqlite")).sort();

/** `look` is told the version of the tables found, before anything is changed. */
function prepared(database: Database, mostBytes: number, look: (version: number) => void, migrations: readonly string[]): Database {
  // Exclusive before anything is read: the lock is the operating system's, so it ends with the process however that ends.
  database.pragma("locking_mode = EXCLUSIVE");
  database.pragma("trusted_schema = OFF");
  database.pragma("cell_size_check = ON");
  // The first read takes the lock, and finds a file that is none of a database's.
  const version = Number(database.pragma("user_version", { simple: true }));
  look(version);
  database.pragma("journal_mode = WAL");
  database.pragma(FULL_SYNC);
  database.pragma("foreign_keys = ON");
  migrate(database, version, migrations);
  database.pragma(`max_page_count = ${Math.floor(mostBytes / Number(database.pragma("page_size", { simple: true })))}`);
  return database;
}

/** Refuses a file that is not ours or not sound, and copies one whose tables are about to change. */
function checkAndCopy(database: Database, folder: string, version: number, newest: number): void {
  const file = join(folder, DATABASE_FILE);
  const isNew = version === 0 && database.prepare("SELECT count(*) FROM sqlite_schema").pluck().get() === 0;
  if (isNew) return;
  if (Number(database.pragma("application_id", { simple: true })) !== APPLICATION_ID) throw troubles.foreign(file);
  if (version > newest) throw troubles.newer(file);
  if (!isSound(database, "quick_check")) throw troubles.damaged(file, copiesIn(folder));
  if (version < newest) copyTo(database, join(folder, `before-${version + 1}.sqlite`));
}

/** Whether the database finds nothing wrong with itself; `quick_check` leaves out whether indexes match their tables. */
export const isSound = (database: Database, check: "quick_check" | "integrity_check"): boolean => database.pragma(check, { simple: true }) === "ok";

/** A whole copy as of now, in place at once or not at all. */
function copyTo(database: Database, file: string): void {
  const part = `${file}.part`;
  rmSync(part, { force: true });
  database.prepare("VACUUM INTO ?").run(part);
  const handle = openSync(part, "r+");
  fsyncSync(handle);
  closeSync(handle);
  renameSync(part, file);
}

/** All steps that are missing, or none: one transaction. */
function migrate(database: Database, version: number, migrations: readonly string[]): void {
  if (version === migrations.length) return;
  database.transaction(() => {
    for (const step of migrations.slice(version)) database.exec(step);
    database.pragma(`application_id = ${APPLICATION_ID}`);
    database.pragma(`user_version = ${migrations.length}`);
  }).exclusive();
}

/** Tells whether the file at its path is still the one that was opened: a write to one that was removed would be lost unseen. */
export function placeOf(folder: string | null): () => boolean {
  if (folder === null) return () => true;
  const file = join(folder, DATABASE_FILE);
  const { ino, dev } = statSync(file);
  return () => {
    const now = statSync(file, { throwIfNoEntry: false });
    return now !== undefined && now.ino === ino && now.dev === dev;
  };
}
