/** Where questions come in and answers go out: what is kept is told at once, equal questions share one run, the rest wait in line. */
import type { Answer, Job } from "./job.ts";
import type { Limits } from "./limits.ts";
import { Line, LineFull } from "./line.ts";
import { refusals } from "./problems.ts";
import type { Runner } from "./runner.ts";
import { Shelf } from "./shelf.ts";

/** One run under way, and how many clients wait for it. */
interface Flight {
  readonly answer: Promise<Answer>;
  /** aborted when the last of them has left */ readonly left: AbortController;
  clients: number;
}

export class Desk {
  readonly #runner: Runner;
  readonly #limits: Limits;
  readonly #line: Line;
  readonly #kept: Shelf<Answer>;
  readonly #flights = new Map<string, Flight>();

  constructor(runner: Runner, limits: Limits) {
    this.#runner = runner;
    this.#limits = limits;
    this.#line = new Line(runner.atOnce, limits.waiting);
    this.#kept = new Shelf(limits.kept, limits.keptBytes);
  }

  /** The answer of that id, while it is kept. */
  kept(id: string): Answer | undefined {
    return this.#kept.get(id);
  }

  /**
   * Answers one question. `gone` is aborted when the client has left: a run that waits and is wanted by nobody else leaves the
   * line, one that has begun gets the grace. Rejects with a `Refusal` when the line is full or the run takes too long, with
   * the reason of `gone` when the run ended because of it, and with the engine's own error when the rehearsal fails.
   */
  async answer(job: Job, gone: AbortSignal): Promise<Answer> {
    gone.throwIfAborted();
    const kept = this.#kept.get(job.id);
    if (kept !== undefined) return kept;
    const flight = this.#flights.get(job.id) ?? this.#start(job);
    flight.clients += 1;
    const leave = () => {
      flight.clients -= 1;
      if (flight.clients > 0) return;
      // Whoever asks the same from now on gets a run of its own, not the rest of an abandoned one.
      if (this.#flights.get(job.id) === flight) this.#flights.delete(job.id);
      flight.left.abort(gone.reason);
    };
    gone.addEventListener("abort", leave, { once: true });
    try {
      return await flight.answer;
    } finally {
      gone.removeEventListener("abort", leave);
    }
  }

  #start(job: Job): Flight {
    const left = new AbortController();
    const answer = this.#inTurn(job, left.signal).finally(() => {
      if (this.#flights.get(job.id) === flight) this.#flights.delete(job.id);
    });
    const flight: Flight = { answer, left, clients: 0 };
    this.#flights.set(job.id, flight);
    return flight;
  }

  async #inTurn(job: Job, left: AbortSignal): Promise<Answer> {
    const giveBack = await this.#line.turn(left).catch((error: unknown) => {
      throw error instanceof LineFull ? refusals.busy() : error;
    });
    const stop = new AbortController();
    const tooLong = setTimeout(() => stop.abort(refusals.tooLong(this.#limits.runMs)), this.#limits.runMs);
    let grace: NodeJS.Timeout | undefined;
    left.addEventListener("abort", () => { grace = setTimeout(() => stop.abort(left.reason), this.#limits.graceMs); }, { once: true });
    try {
      const answer = await this.#runner.run(job, stop.signal);
      this.#kept.put(job.id, answer, answer.findings.bytes.length + answer.log.bytes.length);
      return answer;
    } catch (error) {
      throw stop.signal.aborted ? stop.signal.reason : error;
    } finally {
      clearTimeout(tooLong);
      clearTimeout(grace);
      giveBack();
    }
  }
}
