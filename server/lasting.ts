/**
 * Answers on their way to the data folder. They are gathered for a moment and written together, off the path of whoever waits for one: a slider
 * makes many, each can be worked out again, and none is worth a wait for the disk. What the server is told to keep for good does not come here.
 */
import { promisify } from "node:util";
import { constants, deflate } from "node:zlib";
import type { Limits } from "./limits.ts";
import type { AnswerKind, PackedAnswer, UnpackedAnswer } from "./store/answers.ts";
import type { Store } from "./store/store.ts";

const deflated = promisify<Uint8Array, { level: number }, Buffer>(deflate);

/** Quickly: at zlib's usual level an answer took two and a half times as long, for an eighth less room. */
const packed = (bytes: Uint8Array) => deflated(bytes, { level: constants.Z_BEST_SPEED });

export class Lasting {
  readonly #store: Store;
  readonly #limits: Limits;
  readonly #report: (error: unknown) => void;
  /** by kind and id */ readonly #gathered = new Map<string, Promise<PackedAnswer>>();
  #due: NodeJS.Timeout | undefined;
  #troubled = false;

  /** `report` is told of the first answer that could not be kept or found again, and once more after one that could be kept. */
  constructor(store: Store, limits: Limits, report: (error: unknown) => void) {
    this.#store = store;
    this.#limits = limits;
    this.#report = report;
  }

  /** An answer that was written, or undefined; also where the folder cannot be read: the answer is then worked out again. */
  find(kind: AnswerKind, id: string): UnpackedAnswer | undefined {
    try {
      return this.#store.with(({ answers }) => answers.get(kind, id));
    } catch (error) {
      this.#tell(error);
      return undefined;
    }
  }

  /** Takes an answer out of the folder; true when there was one. */
  remove(kind: AnswerKind, id: string): boolean {
    this.#gathered.delete(`${kind} ${id}`);
    return this.#store.with(({ answers }) => answers.remove(kind, id));
  }

  /** Sees to it that an answer is written soon, and the question that its day can be told from. */
  keep(kind: AnswerKind, id: string, body: Uint8Array, question: Uint8Array | null): void {
    this.#gathered.set(`${kind} ${id}`, packed(body).then((packedBody) => ({ kind, id, body: packedBody, log: null, question })));
    this.#due ??= setTimeout(() => void this.write(), this.#limits.gatherMs).unref();
  }

  /** Writes what was gathered, now. Never rejects: what cannot be kept is told to `report`, and can be worked out again. */
  async write(): Promise<void> {
    clearTimeout(this.#due);
    this.#due = undefined;
    const gathered = [...this.#gathered];
    try {
      const answers = await Promise.all(gathered.map(([, answer]) => answer));
      // One that was removed meanwhile, or gathered anew, is not written now.
      const due = answers.filter((_, i) => this.#gathered.get(gathered[i]![0]) === gathered[i]![1]);
      for (const { kind, id } of due) this.#gathered.delete(`${kind} ${id}`);
      if (due.length === 0) return;
      this.#store.with((store) => store.answers.put(due));
      this.#troubled = false;
    } catch (error) {
      this.#tell(error);
    }
  }

  #tell(error: unknown): void {
    if (!this.#troubled) this.#report(error);
    this.#troubled = true;
  }
}
