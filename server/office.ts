/** Where questions come in and answers go out: what is kept is told at once, equal questions share one run, the rest wait in line. */
import { document } from "./documents.ts";
import type { Document } from "./documents.ts";
import { Flights } from "./flights.ts";
import { FINDINGS_TYPE, LOG_TYPE } from "./job.ts";
import type { Job, ShownDay } from "./job.ts";
import type { Lasting } from "./lasting.ts";
import type { Limits } from "./limits.ts";
import { refusals } from "./problems.ts";
import { jobOf, type Question } from "./question.ts";
import type { Runner } from "./runner.ts";
import { Shelf } from "./shelf.ts";
import type { UnpackedAnswer } from "./store/answers.ts";
import { Turns } from "./turns.ts";

/** An answer that is kept. */
export interface Kept {
  readonly id: string;
  readonly findings: Document;
  /** the day that its log tells; null where that cannot be said any more */ readonly shown: () => ShownDay | null;
  /** once it has been told */ log: Document | null;
}

export class Office {
  readonly #runner: Runner;
  readonly #limits: Limits;
  readonly #lasting: Lasting;
  readonly #kept: Shelf<Kept>;
  readonly #answers: Flights<Kept>;
  readonly #logs: Flights<Document>;

  constructor(runner: Runner, limits: Limits, lasting: Lasting) {
    this.#runner = runner;
    this.#limits = limits;
    this.#lasting = lasting;
    this.#kept = new Shelf(limits.kept, limits.keptBytes);
    const turns = new Turns(runner.atOnce, limits.waiting);
    this.#answers = new Flights(turns, limits);
    this.#logs = new Flights(turns, limits);
  }

  /** The answer of that id, while it is kept: at hand, or in the data folder. */
  kept(id: string): Kept | undefined {
    const atHand = this.#kept.get(id);
    if (atHand !== undefined) return atHand;
    const found = this.#lasting.find("rehearsal", id);
    if (found === undefined) return undefined;
    const log = found.log && document(found.log, LOG_TYPE);
    return this.#shelved({ id, findings: document(found.body, FINDINGS_TYPE), shown: () => shownAgain(id, found, this.#limits), log });
  }

  #shelved(kept: Kept): Kept {
    this.#kept.put(kept.id, kept, kept.findings.bytes.length + (kept.log?.bytes.length ?? 0));
    return kept;
  }

  /** Answers one question, read into its job. Rejects as `Flights.wanted` does, and with a `Refusal` when the day has no end. */
  async answer(job: Job, question: Question, gone: AbortSignal): Promise<Kept> {
    gone.throwIfAborted();
    return this.kept(job.id) ?? this.#answers.wanted(job.id, async (stop) => {
      const answer = await this.#runner.run(job, stop);
      if ("because" in answer) throw refusals.noAnswer(answer.because);
      const { findings, rehearsal } = answer;
      this.#lasting.keep("rehearsal", job.id, findings.bytes, Buffer.from(JSON.stringify(question)));
      return this.#shelved({ id: job.id, findings, shown: () => ({ job, rehearsal }), log: null });
    }, gone);
  }

  /** The log of an answer's day. Rejects as `Flights.wanted` does, and with a `Refusal` when the day cannot be told any more. */
  async log(kept: Kept, gone: AbortSignal): Promise<Document> {
    gone.throwIfAborted();
    return kept.log ?? this.#logs.wanted(kept.id, async (stop) => {
      const shown = kept.shown();
      if (shown === null) throw refusals.noSuchDay();
      kept.log = await this.#runner.log(shown, stop);
      this.#shelved(kept);
      return kept.log;
    }, gone);
  }
}

/** The day of an answer from the data folder. Null where its question is another one by now, as under another engine, or is refused. */
function shownAgain(id: string, { body, question }: UnpackedAnswer, limits: Limits): ShownDay | null {
  try {
    const job = jobOf(JSON.parse(textOf(question!)) as Question, limits);
    const { rehearsal } = JSON.parse(textOf(body)) as { rehearsal: unknown };
    const isOne = Number.isInteger(rehearsal) && (rehearsal as number) >= 0 && (rehearsal as number) < job.rehearsals;
    return job.id === id && isOne ? { job, rehearsal: rehearsal as number } : null;
  } catch {
    return null;
  }
}

const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
