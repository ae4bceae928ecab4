import { RANK_STEP } from "./ladder.ts";
import type { Simulation } from "./simulation.ts";
import type { WaitingLine } from "./line.ts";

/**
 * What a process does, top to bottom. It yields what it waits for: a `Wait`, or a number of seconds to hold. What the wait brings
 * (an item, a signal's value) is what the `yield` evaluates to. A part of a day's work, called with `yield*`, may return something.
 */
export type Work<Result = void> = Generator<Wait | number, Result, any>;

/**
 * Anything a process can wait for. Model code does not call these; it gets a wait from a resource, store, level, signal or
 * `until`, and yields it **at once**: the object is reused by its owner for the next asker.
 */
export interface Wait {
  /** Called when the process yields it. True: granted, the process goes on in the same step. False: the process now waits. */
  begin(process: Process, simulation: Simulation): boolean;
  /** Called when the process is interrupted: leave the queue, or hand back what was granted but not yet delivered. */
  cancel(process: Process): void;
  /**
   * For a wait that an interrupt need not end: what the process does instead, until the wait can begin anew. What is thrown on from
   * there comes out at the yield. Left out: every interrupt is thrown there.
   */
  standThrough?(stop: Interrupt): Work;
}

/** Told when a process resumes from its wait, before the process runs: for waits that are not over until then. */
export interface Closing {
  close(process: Process): void;
}

/**
 * A process and everything that belongs to its one pending event and its one wait. A process waits for one thing at a time,
 * so all of this lives here and nothing is allocated per event. Only `name` and `alive` are for model code.
 */
export class Process {
  readonly name: string;
  /** False once the work has come to its end. */
  alive = true;

  /** @internal */ readonly work: Work;
  /** @internal rank of this process's holds */ readonly holdRank: number;

  /** @internal time of the pending event, s */ at = 0;
  /** @internal rank and sequence of the pending event, see RANK_STEP */ order = 0;
  /** @internal place in the list of events, -1 = no pending event */ place = -1;

  /** @internal what it waits for, null while it holds or runs */ wait: Wait | null = null;
  /** @internal who wants to know that it resumes */ closing: Closing | null = null;
  /** @internal what the yield evaluates to */ value: any = undefined;
  /** @internal to be thrown at its yields, one each */ struck: Interrupt[] | null = null;
  /** @internal the wait in which it was struck, if it stands through */ patient: Wait | null = null;
  /** @internal what it does until that wait is over */ aside: Work<unknown> | null = null;
  /** @internal false until its first step */ begun = false;

  /** @internal the line it stands in, and its neighbours there */ line: WaitingLine | null = null;
  /** @internal */ ahead: Process | null = null;
  /** @internal */ behind: Process | null = null;
  /** @internal when it joined the line, s */ since = 0;
  /** @internal units or mass it asks for */ amount = 0;
  /** @internal lower goes first */ priority = 0;

  constructor(work: Work, name: string, holdRank: number) {
    this.work = work;
    this.name = name;
    this.holdRank = holdRank;
  }

  /** Rank of the event that is pending or just being executed, see `RANK`. */
  get rank(): number {
    return Math.floor(this.order / RANK_STEP);
  }

  /** Sequence number of that event: the order of scheduling. */
  get sequence(): number {
    return this.order % RANK_STEP;
  }
}

/** Thrown inside a process at its yield by `Simulation.interrupt`. Not an `Error`: taking a stack trace would cost more than the event. */
export class Interrupt {
  readonly name = "Interrupt";
  readonly cause: unknown;

  constructor(cause: unknown) {
    this.cause = cause;
  }

  get message(): string {
    return `interrupted: ${String(this.cause)}`;
  }
}
