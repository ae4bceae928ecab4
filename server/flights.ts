/** Work that is wanted under a name: asked for by several at once it is done once, in its turn, and not for nobody. */
import type { Limits } from "./limits.ts";
import { refusals } from "./problems.ts";
import { SentHome } from "./runner.ts";
import { NoPlace, type Turns } from "./turns.ts";

/** One run, waiting or under way, and how many clients want it. */
interface Flight<Result> {
  readonly result: Promise<Result>;
  readonly stop: AbortController;
  clients: number;
  /** its turn has come */ begun: boolean;
  /** runs while nobody wants it any more */ grace?: NodeJS.Timeout;
}

export class Flights<Result> {
  readonly #turns: Turns;
  readonly #limits: Limits;
  readonly #flights = new Map<string, Flight<Result>>();

  constructor(turns: Turns, limits: Limits) {
    this.#turns = turns;
    this.#limits = limits;
  }

  /**
   * Has the work done, unless it is under way already. `gone` is aborted when the client has left: a run that waits and is wanted by nobody
   * else leaves the line, one that has begun gets the grace. Rejects with a `Refusal` when the line is full or the run takes too long, with
   * the reason of `gone` when the run ended because of it, and with what the work itself throws.
   */
  async wanted(name: string, work: (stop: AbortSignal) => Promise<Result>, gone: AbortSignal): Promise<Result> {
    const flight = this.#flights.get(name) ?? this.#start(name, work);
    flight.clients += 1;
    clearTimeout(flight.grace);
    const leave = () => {
      flight.clients -= 1;
      if (flight.clients > 0) return;
      const drop = () => {
        this.#forget(name, flight);
        flight.stop.abort(gone.reason);
      };
      if (flight.begun) flight.grace = setTimeout(drop, this.#limits.graceMs);
      else drop();
    };
    gone.addEventListener("abort", leave, { once: true });
    try {
      return await flight.result;
    } finally {
      gone.removeEventListener("abort", leave);
    }
  }

  #start(name: string, work: (stop: AbortSignal) => Promise<Result>): Flight<Result> {
    // The run reads `begun` and `stop` of its flight, and waits for its turn before it does.
    const flight: Flight<Result> = { stop: new AbortController(), clients: 0, begun: false, result: Promise.resolve().then(() => this.#inTurn(name, flight, work)) };
    this.#flights.set(name, flight);
    return flight;
  }

  #forget(name: string, flight: Flight<Result>): void {
    if (this.#flights.get(name) === flight) this.#flights.delete(name);
  }

  async #inTurn(name: string, flight: Flight<Result>, work: (stop: AbortSignal) => Promise<Result>): Promise<Result> {
    const { stop } = flight;
    let giveBack = () => {};
    let tooLong: NodeJS.Timeout | undefined;
    try {
      giveBack = await this.#turns.turn(stop.signal);
      flight.begun = true;
      tooLong = setTimeout(() => stop.abort(refusals.tooLong(this.#limits.runMs)), this.#limits.runMs);
      return await work(stop.signal);
    } catch (error) {
      if (error instanceof NoPlace) throw refusals.busy();
      if (error instanceof SentHome) throw refusals.ending();
      if ((error as { code?: unknown } | null)?.code === "ERR_WORKER_OUT_OF_MEMORY") throw refusals.tooMuchMemory(this.#limits.threadHeapMb);
      throw stop.signal.aborted ? stop.signal.reason : error;
    } finally {
      clearTimeout(tooLong);
      clearTimeout(flight.grace);
      this.#forget(name, flight);
      giveBack();
    }
  }
}
