import { RANK } from "./ladder.ts";
import { LineStatistics, WaitingLine } from "./line.ts";
import type { Process, Wait } from "./process.ts";
import type { Simulation } from "./simulation.ts";
import { TimeWeighted } from "./statistics.ts";
import type { Clock } from "./statistics.ts";

/** The line is of those who wait for an item. */
export class StoreStatistics extends LineStatistics {
  /** items */ readonly size: TimeWeighted;

  constructor(clock: Clock) {
    super(clock);
    this.size = new TimeWeighted(clock);
  }
}

/** Items in the order in which they were put; as many as come. */
export class Store<T> {
  readonly name: string;
  readonly stats: StoreStatistics;
  private readonly sim: Simulation;
  private readonly line: WaitingLine;
  private readonly request: Take<T>;
  private list: T[] = [];
  /** index of the oldest item in `list`: taking does not move the others */ private oldest = 0;

  constructor(sim: Simulation, name: string) {
    this.sim = sim;
    this.name = name;
    this.stats = new StoreStatistics(sim);
    this.line = new WaitingLine(sim, this.stats);
    this.request = new Take(this);
  }

  /** Items here and not yet granted to anybody. */
  get size(): number {
    return this.list.length - this.oldest;
  }

  /** How many processes wait for an item. */
  get queueLength(): number {
    return this.line.length;
  }

  /** The items, oldest first: a view to read at this instant, not to keep. */
  get items(): readonly T[] {
    this.tidy();
    return this.list;
  }

  /** Adds an item, or hands it to the first process that waits for one. */
  put(item: T): void {
    if (this.hand(item)) return;
    this.list.push(item);
    this.stats.size.set(this.size);
  }

  /** Waits for an item; the yield brings the oldest. Yield it at once: the object is reused. */
  take(): Wait {
    return this.request;
  }

  /** Takes a particular item out without waiting; false when it is not here. */
  remove(item: T): boolean {
    const place = this.list.indexOf(item, this.oldest);
    if (place < 0) return false;
    this.list.splice(place, 1);
    this.stats.size.set(this.size);
    return true;
  }

  /** @internal */
  begin(process: Process): boolean {
    if (this.size === 0) {
      process.priority = 0;
      this.line.join(process);
      return false;
    }
    process.value = this.list[this.oldest];
    this.oldest += 1;
    if (this.oldest > 32 && 2 * this.oldest > this.list.length) this.tidy();
    this.line.pass();
    this.stats.size.set(this.size);
    return true;
  }

  /** @internal An item granted but not delivered goes to the next in line, or back to the front. */
  withdraw(process: Process): void {
    if (process.line !== null) this.line.leave(process);
    else if (!this.hand(process.value as T)) {
      this.tidy();
      this.list.unshift(process.value as T);
      this.stats.size.set(this.size);
    }
  }

  private hand(item: T): boolean {
    const head = this.line.first;
    if (head === null) return false;
    this.line.serve(head);
    head.value = item;
    this.sim.schedule(head, this.sim.now, RANK.grant);
    return true;
  }

  /** Forgets the places of items that were taken. */
  private tidy(): void {
    if (this.oldest > 0) this.list.splice(0, this.oldest);
    this.oldest = 0;
  }
}

class Take<T> implements Wait {
  private readonly store: Store<T>;

  constructor(store: Store<T>) {
    this.store = store;
  }

  begin(process: Process): boolean {
    return this.store.begin(process);
  }

  cancel(process: Process): void {
    this.store.withdraw(process);
  }
}
