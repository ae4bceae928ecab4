/** The data folder, open: what is kept in it, and every trouble with it told in words. */
import { rmSync, statfsSync } from "node:fs";
import { dirname, join } from "node:path";
import { Answers } from "./answers.ts";
import { DATABASE_FILE, isSound, openDatabase, placeOf } from "./database.ts";
import type { Database } from "./database.ts";
import { Scenarios } from "./scenarios.ts";
import { troubleOf, troubles } from "./trouble.ts";

/** Where an archive lies while it is looked through; gone when that is over. */
export const ARCHIVE_DRAFT = "archive.part";

/** Bytes free from which a disk is not called full. */
const ROOM = 64 * 1024 * 1024;

export interface StoreBounds {
  /** ids ever used */ readonly scenarios: number;
  /** of one scenario */ readonly revisions: number;
  /** deflated answers together */ readonly answerBytes: number;
  /** the whole file */ readonly folderBytes: number;
}

export class Store {
  /** null: in memory, gone with the process */ readonly folder: string | null;
  readonly scenarios: Scenarios;
  readonly answers: Answers;
  readonly database: Database;
  readonly #file: string;
  readonly #isInPlace: () => boolean;
  readonly #bounds: StoreBounds;

  /** Opens or makes the folder. @throws StoreTrouble */
  constructor(folder: string | null, bounds: StoreBounds) {
    this.folder = folder;
    this.#file = folder === null ? ":memory:" : join(folder, DATABASE_FILE);
    this.#bounds = bounds;
    this.database = openDatabase(folder, { mostBytes: bounds.folderBytes });
    this.#isInPlace = placeOf(folder);
    // From a server that was killed while it looked one through.
    if (folder !== null) rmSync(join(folder, ARCHIVE_DRAFT), { force: true });
    this.scenarios = new Scenarios(this.database, bounds);
    this.answers = new Answers(this.database, bounds.answerBytes);
  }

  /** Does some work with what is kept. @throws StoreTrouble for what the folder cannot do, and what the work itself throws */
  with<Result>(work: (store: this) => Result): Result {
    if (!this.#isInPlace()) throw troubles.gone(this.#file);
    try {
      return work(this);
    } catch (error) {
      const folder = dirname(this.#file);
      const trouble = troubleOf(error, this.#file, folder);
      throw (trouble?.kind === "full" && this.#isAtItsLimit() ? troubles.limit(folder, this.#bounds.folderBytes) : trouble) ?? error;
    }
  }

  /** Full because of our own bound: SQLite says the same of both, but then the disk has room. */
  #isAtItsLimit(): boolean {
    if (this.folder === null) return true;
    const { bavail, bsize } = statfsSync(this.folder);
    return bavail * bsize > ROOM;
  }

  /** The whole file looked through, indexes and all. */
  isSound(): boolean {
    return isSound(this.database, "integrity_check");
  }

  /** Puts the log into the file and lets go of both. */
  close(): void {
    this.database.close();
  }
}
