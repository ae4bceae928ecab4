/** Scenarios that are kept, with every revision: nothing that was once acknowledged is ever overwritten. */
import type { Database } from "./database.ts";

/** Names a scenario may be kept under. */
export const ID = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;
export const LONGEST_ID = 60;

/** How a scenario was written. */
export type Form = "json" | "yaml";

export interface Written {
  readonly form: Form;
  /** as it came, to the letter */ readonly text: string;
  /** the scenario's own name */ readonly name: string;
  /** of the checked scenario, see `hashOf` */ readonly hash: string;
}

export interface Stamp {
  readonly id: string;
  /** 1 for the first */ readonly revision: number;
  /** ms since 1970 */ readonly savedAt: number;
  readonly name: string;
  readonly hash: string;
}

export interface Revision extends Stamp {
  readonly form: Form;
  /** null: taken away with this revision */ readonly text: string | null;
}

/** What a save found in the way; nothing was changed then. */
export type Hindrance = "too-many-scenarios" | "too-many-revisions";

interface Bounds { readonly scenarios: number; readonly revisions: number }

const COLUMNS = "revision.scenario AS id, number AS revision, saved_at AS savedAt, form, name, hash";
const NEWEST = "FROM scenario JOIN revision ON revision.scenario = scenario.id AND revision.number = scenario.latest";

export class Scenarios {
  readonly #database: Database;
  readonly #bounds: Bounds;

  constructor(database: Database, bounds: Bounds) {
    this.#database = database;
    this.#bounds = bounds;
  }

  /** The newest revision of each that is not taken away, by id. */
  list(): Stamp[] {
    return this.#database.prepare<[], Stamp>(`SELECT ${COLUMNS} ${NEWEST} WHERE text IS NOT NULL ORDER BY id`).all();
  }

  /** The newest revision, also when it says that the scenario was taken away; undefined for an id never used. */
  newest(id: string): Revision | undefined {
    return this.#database.prepare<[string], Revision>(`SELECT ${COLUMNS}, text ${NEWEST} WHERE scenario.id = ?`).get(id);
  }

  /** Every revision without its text, the newest first. */
  revisions(id: string): (Stamp & { readonly form: Form; readonly takenAway: 0 | 1 })[] {
    return this.#database.prepare<[string], Stamp & { form: Form; takenAway: 0 | 1 }>(
      `SELECT ${COLUMNS}, text IS NULL AS takenAway FROM revision WHERE scenario = ? ORDER BY number DESC`,
    ).all(id);
  }

  revision(id: string, number: number): Revision | undefined {
    return this.#database.prepare<[string, number], Revision>(`SELECT ${COLUMNS}, text FROM revision WHERE scenario = ? AND number = ?`).get(id, number);
  }

  /** Every revision, the first one first. */
  history(id: string): Revision[] {
    return this.#database.prepare<[string], Revision>(`SELECT ${COLUMNS}, text FROM revision WHERE scenario = ? ORDER BY number`).all(id);
  }

  /** Number of the row written last; rows are only ever added. */
  lastRow(): number {
    return this.#database.prepare<[], number>("SELECT coalesce(max(rowid), 0) FROM revision").pluck().get()!;
  }

  /** Up to so many revisions after one, by id and number, among those that were written when `lastRow` was the last. */
  page({ id, revision }: Pick<Stamp, "id" | "revision">, lastRow: number, most: number): Revision[] {
    return this.#database.prepare<[string, number, number, number], Revision>(
      `SELECT ${COLUMNS}, text FROM revision WHERE (scenario, number) > (?, ?) AND rowid <= ? ORDER BY scenario, number LIMIT ?`,
    ).all(id, revision, lastRow, most);
  }

  /** Takes a revision on from elsewhere, as the next of its scenario. */
  take(revision: Revision): Hindrance | null {
    const result = this.#next(revision.id, revision);
    return typeof result === "object" ? null : result;
  }

  /** Saves as the next revision. When this returns a stamp, it is on the disk. */
  save(id: string, written: Written, now: number): Stamp | Hindrance {
    return this.#next(id, { ...written, savedAt: now });
  }

  /** Takes the scenario away: its revisions stay, and saving under its id goes on counting. */
  takeAway(id: string, now: number): Stamp | Hindrance {
    const { form, name, hash } = this.newest(id)!;
    return this.#next(id, { form, name, hash, text: null, savedAt: now });
  }

  #next(id: string, { form, text, name, hash, savedAt }: Omit<Revision, "id" | "revision">): Stamp | Hindrance {
    return this.#database.transaction((): Stamp | Hindrance => {
      const latest = this.#database.prepare<[string], number>("SELECT latest FROM scenario WHERE id = ?").pluck().get(id) ?? 0;
      if (latest === 0 && this.#count() >= this.#bounds.scenarios) return "too-many-scenarios";
      if (latest >= this.#bounds.revisions) return "too-many-revisions";
      const revision = latest + 1;
      this.#database.prepare("INSERT INTO scenario (id, latest) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET latest = excluded.latest").run(id, revision);
      this.#database.prepare("INSERT INTO revision (scenario, number, saved_at, form, name, hash, text) VALUES (?, ?, ?, ?, ?, ?, ?)")
        .run(id, revision, savedAt, form, name, hash, text);
      return { id, revision, savedAt, name, hash };
    }).immediate();
  }

  #count(): number {
    return this.#database.prepare<[], number>("SELECT count(*) FROM scenario").pluck().get()!;
  }
}
