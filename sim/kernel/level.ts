import { RANK } from "./ladder.ts";
import { LineStatistics, WaitingLine } from "./line.ts";
import type { Closing, Process, Wait } from "./process.ts";
import { REFUSALS } from "./refusals.ts";
import type { Simulation } from "./simulation.ts";
import { TimeWeighted } from "./statistics.ts";
import type { Clock } from "./statistics.ts";

/** Relative slack for sums of masses: an amount this close to what is there, or to the room left, counts as fitting. */
const SLACK = 1e-9;

/** A sum of masses; what is left within the slack of the change is rounding, and counts as nothing. */
function plus(mass: number, change: number): number {
  const sum = mass + change;
  return sum <= SLACK * Math.abs(change) ? 0 : sum;
}

export class LevelStatistics {
  readonly puts: LineStatistics;
  readonly takes: LineStatistics;
  readonly level: TimeWeighted;

  constructor(clock: Clock, initial: number) {
    this.puts = new LineStatistics(clock);
    this.takes = new LineStatistics(clock);
    this.level = new TimeWeighted(clock, initial);
  }
}

/**
 * An amount of one thing, a mass say, with a capacity. Puts wait for room and takes for enough to take, each first come first served.
 *
 * - A put larger than the whole capacity is granted when the level is empty, so that one load too big does not wait for ever.
 * - A grant to one who waited *promises* the room or the amount at once, and the amount moves when the process resumes, at the same
 *   instant. An interrupt in between gives the promise back; nothing has moved that would have to be fetched again.
 * - Sums of floating-point masses are compared with 1e-9 relative slack; a remainder within the slack of a take counts as nothing.
 */
export class Level {
  readonly name: string;
  readonly stats: LevelStatistics;
  /** @internal */ readonly sim: Simulation;
  /** @internal promised to puts and to takes, not yet moved */ readonly promised = { room: 0, amount: 0 };
  private readonly putting: Move;
  private readonly taking: Move;
  private limit: number;
  private held: number;

  /** `capacity`: 0 or more, Infinity allowed; `initial`: what is there at the start, it may stand above the capacity. */
  constructor(sim: Simulation, name: string, capacity: number, initial = 0) {
    if (!(capacity >= 0)) throw new RangeError(REFUSALS.capacity(name, capacity));
    if (!(initial >= 0 && initial < Infinity)) throw new RangeError(REFUSALS.amount(name, initial));
    this.sim = sim;
    this.name = name;
    this.limit = capacity;
    this.held = initial;
    this.stats = new LevelStatistics(sim, initial);
    this.putting = new Put(this, new WaitingLine(sim, this.stats.puts));
    this.taking = new Take(this, new WaitingLine(sim, this.stats.takes));
  }

  get level(): number {
    return this.held;
  }

  get capacity(): number {
    return this.limit;
  }

  get waitingPuts(): number {
    return this.putting.line.length;
  }

  get waitingTakes(): number {
    return this.taking.line.length;
  }

  /** Waits for room and adds the amount. Yield it at once: the object is reused. Refuses negative, NaN and infinite amounts. */
  put(amount: number): Wait {
    return this.ask(this.putting, amount);
  }

  /** Waits until the amount is there and takes it. Yield it at once: the object is reused. Refuses as `put` does. */
  take(amount: number): Wait {
    return this.ask(this.taking, amount);
  }

  /** Changes the capacity from this instant on. What is there stays, even above the new capacity; puts then wait. */
  changeCapacity(capacity: number): void {
    if (!(capacity >= 0)) throw new RangeError(REFUSALS.capacity(this.name, capacity));
    this.limit = capacity;
    this.serve();
  }

  /** @internal */
  hasRoom(amount: number): boolean {
    const spoken = this.held + this.promised.room;
    return spoken + amount <= this.limit * (1 + SLACK) || (amount > this.limit && spoken <= this.limit * SLACK);
  }

  /** @internal */
  holds(amount: number): boolean {
    return this.held - this.promised.amount >= amount * (1 - SLACK);
  }

  /** @internal Moves an amount in, or out when negative. */
  move(amount: number): void {
    this.held = plus(this.held, amount);
    this.stats.level.set(this.held);
  }

  /** @internal Grants what has become possible; a put can make room for no other put, nor a take for a take. */
  serve(): void {
    this.putting.serve();
    this.taking.serve();
  }

  private ask(move: Move, amount: number): Wait {
    if (!(amount >= 0 && amount < Infinity)) throw new RangeError(REFUSALS.amount(this.name, amount));
    move.amount = amount;
    return move;
  }
}

/** What puts and takes have in common: stand in line, be promised, be done. */
abstract class Move implements Wait, Closing {
  amount = 0;
  readonly line: WaitingLine;
  protected readonly level: Level;

  constructor(level: Level, line: WaitingLine) {
    this.level = level;
    this.line = line;
  }

  protected abstract possible(amount: number): boolean;
  protected abstract promise(amount: number): void;
  protected abstract carryOut(amount: number): void;

  begin(process: Process): boolean {
    const { line, amount } = this;
    if (line.first === null && this.possible(amount)) {
      line.pass();
      this.carryOut(amount);
      this.level.serve();
      return true;
    }
    process.amount = amount;
    process.priority = 0;
    line.join(process);
    return false;
  }

  serve(): void {
    const { line, level } = this;
    for (let head = line.first; head !== null && this.possible(head.amount); head = line.first) {
      line.serve(head);
      this.promise(head.amount);
      head.closing = this;
      level.sim.schedule(head, level.sim.now, RANK.grant);
    }
  }

  /** The process resumes: what was promised moves now. */
  close(process: Process): void {
    this.promise(-process.amount);
    this.carryOut(process.amount);
    this.level.serve();
  }

  cancel(process: Process): void {
    if (process.line !== null) this.line.leave(process);
    else this.promise(-process.amount);
    this.level.serve();
  }
}

class Put extends Move {
  protected possible(amount: number): boolean {
    return this.level.hasRoom(amount);
  }

  protected promise(amount: number): void {
    this.level.promised.room = plus(this.level.promised.room, amount);
  }

  protected carryOut(amount: number): void {
    this.level.move(amount);
  }
}

class Take extends Move {
  protected possible(amount: number): boolean {
    return this.level.holds(amount);
  }

  protected promise(amount: number): void {
    this.level.promised.amount = plus(this.level.promised.amount, amount);
  }

  protected carryOut(amount: number): void {
    this.level.move(-amount);
  }
}
