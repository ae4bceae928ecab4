/** Answers that are kept under the hash of their question, so many bytes; what was not used for longest goes first. All of them could be worked out again. */
import { inflateSync } from "node:zlib";
import { FULL_SYNC, type Database } from "./database.ts";

export type AnswerKind = "rehearsal" | "study";

/** As it lies in the database: answer and log deflated. */
export interface PackedAnswer {
  readonly kind: AnswerKind;
  readonly id: string;
  readonly body: Uint8Array;
  /** a rehearsal's day log: kept up to version 0.3 */ readonly log: Uint8Array | null;
  /** what a rehearsal was asked by, to tell its day from */ readonly question: Uint8Array | null;
}

export type UnpackedAnswer = Pick<PackedAnswer, "body" | "log" | "question">;

/** Bytes that an answer takes. */
export const bytesOf = ({ body, log, question }: UnpackedAnswer): number => body.length + (log?.length ?? 0) + (question?.length ?? 0);

/** No answer of ours is larger; one in a file from elsewhere may pretend to be. */
export const INFLATED = { maxOutputLength: 256 * 1024 * 1024 };

export class Answers {
  readonly #database: Database;
  readonly #mostBytes: number;
  /** read since the last `put`, so that a read costs no write */ readonly #used = new Map<string, readonly [AnswerKind, string]>();

  constructor(database: Database, mostBytes: number) {
    this.#database = database;
    this.#mostBytes = mostBytes;
  }

  get(kind: AnswerKind, id: string): UnpackedAnswer | undefined {
    const row = this.packed(kind, id);
    if (row === undefined) return undefined;
    this.#used.set(`${kind} ${id}`, [kind, id]);
    const { body, log, question } = row;
    return { body: inflateSync(body, INFLATED), log: log && inflateSync(log, INFLATED), question };
  }

  /** Kind and id of each, the longest unused first. */
  keys(): { readonly kind: AnswerKind; readonly id: string }[] {
    return this.#database.prepare<[], { kind: AnswerKind; id: string }>("SELECT kind, id FROM answer ORDER BY turn").all();
  }

  /** An answer as it lies there. */
  packed(kind: AnswerKind, id: string): PackedAnswer | undefined {
    return this.#database.prepare<[string, string], PackedAnswer>("SELECT kind, id, body, log, question FROM answer WHERE kind = ? AND id = ?").get(kind, id);
  }

  /**
   * Keeps several at once; then lets go of the longest unused until the rest fits. They outlive the process when this returns, and the power
   * with the next scenario that is saved or once the log is put into the file: nobody waits for a disk because of what can be worked out again.
   */
  put(answers: readonly PackedAnswer[]): void {
    this.#database.pragma("synchronous = NORMAL");
    try {
      this.#putAtOnce(answers);
    } finally {
      this.#database.pragma(FULL_SYNC);
    }
    this.#used.clear();
  }

  #putAtOnce(answers: readonly PackedAnswer[]): void {
    this.#database.transaction(() => {
      let turn = this.#database.prepare<[], number>("SELECT coalesce(max(turn), 0) FROM answer").pluck().get()!;
      const touch = this.#database.prepare("UPDATE answer SET turn = ? WHERE kind = ? AND id = ?");
      for (const [kind, id] of this.#used.values()) touch.run(++turn, kind, id);
      const insert = this.#database.prepare("INSERT OR REPLACE INTO answer (kind, id, turn, bytes, body, log, question) VALUES (?, ?, ?, ?, ?, ?, ?)");
      for (const answer of answers) insert.run(answer.kind, answer.id, ++turn, bytesOf(answer), answer.body, answer.log, answer.question);
      this.#trim();
    }).immediate();
  }

  /** Takes an answer on from elsewhere, unless there is one of its id already or it has more bytes than `room`; lets go of none. Gives the bytes it takes, 0 when it was left. */
  add(answer: PackedAnswer, room: number): number {
    const bytes = bytesOf(answer);
    if (bytes > room) return 0;
    return this.#database.prepare("INSERT OR IGNORE INTO answer (kind, id, turn, bytes, body, log, question) VALUES (?, ?, (SELECT coalesce(max(turn), 0) + 1 FROM answer), ?, ?, ?, ?)")
      .run(answer.kind, answer.id, bytes, answer.body, answer.log, answer.question).changes * bytes;
  }

  /** True when there was one. */
  remove(kind: AnswerKind, id: string): boolean {
    return this.#database.prepare("DELETE FROM answer WHERE kind = ? AND id = ?").run(kind, id).changes > 0;
  }

  get bytes(): number {
    return this.#database.prepare<[], number>("SELECT coalesce(sum(bytes), 0) FROM answer").pluck().get()!;
  }

  /** Bytes that still fit beside what is kept. */
  get room(): number {
    return Math.max(0, this.#mostBytes - this.bytes);
  }

  #trim(): void {
    const next = this.#database.prepare<[], { rowid: number; bytes: number }>("SELECT rowid, bytes FROM answer ORDER BY turn LIMIT 1");
    const drop = this.#database.prepare("DELETE FROM answer WHERE rowid = ?");
    for (let { bytes } = this; bytes > this.#mostBytes;) {
      const oldest = next.get()!;
      drop.run(oldest.rowid);
      bytes -= oldest.bytes;
    }
  }
}
