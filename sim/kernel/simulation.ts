import { Agenda } from "./agenda.ts";
import { RANK, RANK_STEP } from "./ladder.ts";
import { Interrupt, Process } from "./process.ts";
import type { Wait, Work } from "./process.ts";
import { REFUSALS } from "./refusals.ts";

/** Called once a step, before the process runs. The keys of the event, `at`, `rank` and `sequence`, stand on the process. */
export type LogSink = (process: Process) => void;

/**
 * A clock and a list of events. Events at one instant follow the ladder in `ladder.ts`. Times are seconds.
 * A simulation is a pure function of what is spawned in it: it has no clock and no randomness of its own.
 */
export class Simulation {
  /** The present instant, s. Only `run` and `step` move it, and never back. */
  now: number;

  private readonly agenda = new Agenda();
  private readonly log: LogSink | null;
  private sequence = 0;
  private steps = 0;
  private running: Process | null = null;
  private halted = false;

  constructor(options: { start?: number; log?: LogSink } = {}) {
    this.now = options.start ?? 0;
    this.log = options.log ?? null;
    if (!Number.isFinite(this.now)) throw new RangeError(REFUSALS.start(this.now));
  }

  /** Steps executed so far. */
  get events(): number {
    return this.steps;
  }

  /**
   * Adds a process. It begins at `at` (default: this instant), never inside this call. `rank` puts its start and all its holds
   * on another rung of the ladder: an observer is spawned with `RANK.observer`.
   * Refuses a time in the past or not finite, and a rank off the ladder.
   */
  spawn(work: Work, options?: { at?: number; name?: string; rank?: number }): Process {
    const at = options?.at ?? this.now;
    const rank = options?.rank;
    if (!(at >= this.now && at < Infinity)) throw new RangeError(REFUSALS.past("start of a process", at, this.now));
    if (rank !== undefined && !(Number.isInteger(rank) && rank >= 0 && rank <= RANK.observer)) throw new RangeError(REFUSALS.rank(rank));
    const process = new Process(work, options?.name ?? "", rank ?? RANK.hold);
    this.schedule(process, at, rank ?? RANK.start);
    return process;
  }

  /**
   * Throws `new Interrupt(cause)` inside the process, at its yield, at this instant and before anything else at this instant.
   * Its wait is cancelled now: a queued request leaves the queue; what was granted but not yet delivered is handed back.
   * A second interrupt at the same instant strikes at the next yield at which the process would wait.
   * Does nothing, and says false, when the process is not waiting: it has ended, has not begun, or is the one running.
   */
  interrupt(process: Process, cause: unknown): boolean {
    if (!process.alive || !process.begun || process === this.running) return false;
    const strike = new Interrupt(cause);
    if (process.struck !== null) process.struck.push(strike);
    else {
      process.struck = [strike];
      this.strike(process);
    }
    return true;
  }

  /**
   * Runs until there are no events, or until the clock stands at `until`, s; events at that very instant are executed.
   * What a process throws comes out here; the simulation is of no further use then.
   */
  run(until = Infinity): void {
    if (!(until >= this.now)) throw new RangeError(REFUSALS.past("end of a run", until, this.now));
    this.halted = false;
    for (;;) {
      const next = this.agenda.first;
      if (next === undefined || next.at > until) break;
      this.step();
      if (this.halted) return;
    }
    if (until < Infinity) this.now = until;
  }

  /** Lets `run` return after the present step; the clock stays where it is, and `run` can be called again. */
  halt(): void {
    this.halted = true;
  }

  /** Executes the next event: moves the clock to it and lets its process go on to its next wait. False when there is none. */
  step(): boolean {
    const process = this.agenda.take();
    if (process === undefined) return false;
    this.now = process.at;
    this.steps += 1;
    if (this.log !== null) this.log(process);
    this.running = process;
    try {
      this.resume(process);
      if (process.struck !== null && process.alive) this.strike(process);
    } catch (thrown) {
      process.alive = false;
      throw thrown instanceof Interrupt ? new Error(REFUSALS.uncaught(process.name, thrown.message)) : thrown;
    } finally {
      this.running = null;
    }
    return true;
  }

  /** @internal Gives the process its one pending event, or moves the one it has. */
  schedule(process: Process, at: number, rank: number): void {
    if (process.place >= 0) this.agenda.remove(process);
    process.at = at;
    process.order = rank * RANK_STEP + this.sequence++;
    this.agenda.add(process);
  }

  /** Cancels what the process waits for and schedules the throw. */
  private strike(process: Process): void {
    const { wait } = process;
    if (process.place >= 0) this.agenda.remove(process);
    process.closing = null;
    process.wait = null;
    process.patient = wait?.standThrough === undefined ? null : wait;
    if (wait !== null) wait.cancel(process);
    this.schedule(process, this.now, RANK.interrupt);
  }

  private resume(process: Process): void {
    const { work, closing } = process;
    process.begun = true;
    process.wait = null;
    if (closing !== null) {
      process.closing = null;
      closing.close(process);
    }
    let turn = process.struck === null && process.aside === null ? work.next(process.value) : this.disturbed(process);
    while (turn.done !== true) {
      process.value = undefined;
      const wanted = turn.value;
      if (typeof wanted === "number") {
        if (!(wanted >= 0 && wanted < Infinity)) throw new RangeError(REFUSALS.hold(wanted));
        this.schedule(process, this.now + wanted, process.holdRank);
        return;
      }
      if (!wanted.begin(process, this)) {
        process.wait = wanted;
        return;
      }
      turn = process.aside === null ? work.next(process.value) : this.goOnAside(process);
    }
    process.alive = false;
  }

  /** It was struck, now or while it still stands aside: what was patient stands through, anything else is thrown at its yield. */
  private disturbed(process: Process): IteratorResult<Wait | number, unknown> {
    if (process.struck === null) return this.goOnAside(process);
    const strike = nextStrike(process);
    const { aside, patient } = process;
    if (aside !== null) return this.besides(process, () => aside.throw(strike));
    if (patient === null) return process.work.throw(strike);
    process.aside = standing(patient, strike);
    return this.goOnAside(process);
  }

  private goOnAside(process: Process): IteratorResult<Wait | number, unknown> {
    return this.besides(process, () => process.aside!.next(process.value));
  }

  /** A step beside its work; where that is over, or throws, the work goes on with what came of it. */
  private besides(process: Process, step: () => IteratorResult<Wait | number, unknown>): IteratorResult<Wait | number, unknown> {
    let turn;
    try {
      turn = step();
    } catch (thrown) {
      process.aside = null;
      return process.work.throw(thrown);
    }
    if (turn.done !== true) return turn;
    process.aside = null;
    return process.work.next(turn.value);
  }
}

/** Stands through a stop, and through those that come meanwhile, until the wait is over. */
function* standing(wait: Wait, stop: Interrupt): Work<unknown> {
  for (let why = stop; ;) {
    yield* wait.standThrough!(why);
    try {
      return yield wait;
    } catch (again) {
      if (!(again instanceof Interrupt)) throw again;
      why = again;
    }
  }
}

/** The first of the interrupts that strike the process at this instant. */
function nextStrike(process: Process): Interrupt {
  const strike = process.struck!.shift()!;
  if (process.struck!.length === 0) process.struck = null;
  return strike;
}
