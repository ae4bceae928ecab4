/** Where questions come in and answers go out: what is kept is told at once, equal questions share one run, the rest wait in line. */
import { document } from "./documents.ts";
import { FINDINGS_TYPE, LOG_TYPE } from "./job.ts";
import type { Answer, Job } from "./job.ts";
import type { Lasting } from "./lasting.ts";
import type { Limits } from "./limits.ts";
import { refusals } from "./problems.ts";
import { SentHome } from "./runner.ts";
import type { Runner } from "./runner.ts";
import { Shelf } from "./shelf.ts";
import { NoPlace, Turns } from "./turns.ts";

/** One run, waiting or under way, and how many clients want it. */
interface Flight {
  readonly answer: Promise<Answer>;
  readonly stop: AbortController;
  clients: number;
  /** its turn has come */ begun: boolean;
  /** runs while nobody wants it any more */ grace?: NodeJS.Timeout;
}

export class Office {
  readonly #runner: Runner;
  readonly #limits: Limits;
  readonly #lasting: Lasting;
  readonly #turns: Turns;
  readonly #kept: Shelf<Answer>;
  readonly #flights = new Map<string, Flight>();

  constructor(runner: Runner, limits: Limits, lasting: Lasting) {
    this.#runner = runner;
    this.#limits = limits;
    this.#lasting = lasting;
    this.#turns = new Turns(runner.atOnce, limits.waiting);
    this.#kept = new Shelf(limits.kept, limits.keptBytes);
  }

  /** The answer of that id, while it is kept: at hand, or in the data folder. */
  kept(id: string): Answer | undefined {
    const atHand = this.#kept.get(id);
    if (atHand !== undefined) return atHand;
    const found = this.#lasting.find("rehearsal", id);
    if (!found?.log) return undefined;
    return this.#shelved(id, { findings: document(found.body, FINDINGS_TYPE), log: document(found.log, LOG_TYPE) });
  }

  #shelved(id: string, answer: Answer): Answer {
    this.#kept.put(id, answer, answer.findings.bytes.length + answer.log.bytes.length);
    return answer;
  }

  /**
   * Answers one question. `gone` is aborted when the client has left: a run that waits and is wanted by nobody else leaves the
   * line, one that has begun gets the grace. Rejects with a `Refusal` when the line is full, the run takes too long or the
   * day has no end, with the reason of `gone` when the run ended because of it, and with the engine's own error when the rehearsal fails.
   */
  async answer(job: Job, gone: AbortSignal): Promise<Answer> {
    gone.throwIfAborted();
    const kept = this.kept(job.id);
    if (kept !== undefined) return kept;
    const flight = this.#flights.get(job.id) ?? this.#start(job);
    flight.clients += 1;
    clearTimeout(flight.grace);
    const leave = () => {
      flight.clients -= 1;
      if (flight.clients > 0) return;
      const drop = () => {
        this.#forget(job, flight);
        flight.stop.abort(gone.reason);
      };
      if (flight.begun) flight.grace = setTimeout(drop, this.#limits.graceMs);
      else drop();
    };
    gone.addEventListener("abort", leave, { once: true });
    try {
      return await flight.answer;
    } finally {
      gone.removeEventListener("abort", leave);
    }
  }

  #start(job: Job): Flight {
    // The run reads `begun` and `stop` of its flight, and waits for its turn before it does.
    const flight: Flight = { stop: new AbortController(), clients: 0, begun: false, answer: Promise.resolve().then(() => this.#inTurn(job, flight)) };
    this.#flights.set(job.id, flight);
    return flight;
  }

  #forget(job: Job, flight: Flight): void {
    if (this.#flights.get(job.id) === flight) this.#flights.delete(job.id);
  }

  async #inTurn(job: Job, flight: Flight): Promise<Answer> {
    const { stop } = flight;
    let giveBack = () => {};
    let tooLong: NodeJS.Timeout | undefined;
    try {
      giveBack = await this.#turns.turn(stop.signal);
      flight.begun = true;
      tooLong = setTimeout(() => stop.abort(refusals.tooLong(this.#limits.runMs)), this.#limits.runMs);
      const answer = await this.#runner.run(job, stop.signal);
      if ("because" in answer) throw refusals.noAnswer(answer.because);
      this.#lasting.keep("rehearsal", job.id, answer.findings.bytes, answer.log.bytes);
      return this.#shelved(job.id, answer);
    } catch (error) {
      if (error instanceof NoPlace) throw refusals.busy();
      if (error instanceof SentHome) throw refusals.ending();
      if ((error as { code?: unknown } | null)?.code === "ERR_WORKER_OUT_OF_MEMORY") throw refusals.tooMuchMemory(this.#limits.threadHeapMb);
      throw stop.signal.aborted ? stop.signal.reason : error;
    } finally {
      clearTimeout(tooLong);
      clearTimeout(flight.grace);
      this.#forget(job, flight);
      giveBack();
    }
  }
}
