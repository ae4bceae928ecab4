import { RANK } from "./ladder.ts";
import { LineStatistics, WaitingLine } from "./line.ts";
import type { Process, Wait } from "./process.ts";
import { REFUSALS } from "./refusals.ts";
import type { Simulation } from "./simulation.ts";
import { TimeWeighted } from "./statistics.ts";
import type { Clock } from "./statistics.ts";

export class ResourceStatistics extends LineStatistics {
  /** units in use */ readonly inUse: TimeWeighted;
  /** units that could be in use */ readonly capacity: TimeWeighted;

  constructor(clock: Clock, capacity: number) {
    super(clock);
    this.inUse = new TimeWeighted(clock);
    this.capacity = new TimeWeighted(clock, capacity);
  }

  /** Share of the capacity that was in use; over 1 is possible when capacity was cut while units were in use. */
  get utilisation(): number {
    return this.inUse.area / this.capacity.area;
  }
}

/**
 * A counted number of equal units: servers, places, lanes. Requests are served in order of priority (lower first), then first
 * come first served; strictly so: who stands behind waits, even if it asks for fewer units.
 * A grant is made at the moment the units come free, so a process that asks in between cannot overtake.
 */
export class Resource {
  readonly name: string;
  readonly stats: ResourceStatistics;
  private readonly sim: Simulation;
  private readonly line: WaitingLine;
  private readonly request: Seize;
  private total: number;
  private used = 0;

  /** `capacity`: units, 0 or more; Infinity is allowed. */
  constructor(sim: Simulation, name: string, capacity: number) {
    if (!(capacity >= 0)) throw new RangeError(REFUSALS.capacity(name, capacity));
    this.sim = sim;
    this.name = name;
    this.total = capacity;
    this.stats = new ResourceStatistics(sim, capacity);
    this.line = new WaitingLine(sim, this.stats);
    this.request = new Seize(this);
  }

  get inUse(): number {
    return this.used;
  }

  get capacity(): number {
    return this.total;
  }

  get queueLength(): number {
    return this.line.length;
  }

  /**
   * Waits for units. Yield it at once: the object is reused. More units than there are now may be asked for; the request then waits
   * until the capacity allows it. Refuses anything but whole numbers from 1 up.
   */
  seize(units = 1, priority = 0): Wait {
    if (!(Number.isInteger(units) && units > 0)) throw new RangeError(REFUSALS.units(this.name, units));
    this.request.units = units;
    this.request.priority = priority;
    return this.request;
  }

  /** Gives units back and grants what is now possible. Anybody may release; not more than are in use. */
  release(units = 1): void {
    if (!(Number.isInteger(units) && units > 0)) throw new RangeError(REFUSALS.units(this.name, units));
    if (units > this.used) throw new RangeError(REFUSALS.notInUse(this.name, units, this.used));
    this.used -= units;
    this.serve();
  }

  /**
   * Changes the number of units from this instant on. Units in use are never taken away: with fewer units than are in use,
   * nothing is granted until enough have been given back.
   */
  changeCapacity(capacity: number): void {
    if (!(capacity >= 0)) throw new RangeError(REFUSALS.capacity(this.name, capacity));
    this.total = capacity;
    this.stats.capacity.set(capacity);
    this.serve();
  }

  /** @internal True when nobody is before this request and the units are there. */
  admit(units: number): boolean {
    if (this.line.first !== null || this.used + units > this.total) return false;
    this.used += units;
    this.stats.inUse.set(this.used);
    this.line.pass();
    return true;
  }

  /** @internal */
  queue(process: Process): void {
    this.line.join(process);
    // One with a better priority may stand before others now, and ask for fewer units than they.
    if (process.behind !== null && this.line.first === process) this.serve();
  }

  /** @internal */
  withdraw(process: Process): void {
    if (process.line === null) {
      this.release(process.amount);
      return;
    }
    this.line.leave(process);
    this.serve();
  }

  private serve(): void {
    for (let head = this.line.first; head !== null && this.used + head.amount <= this.total; head = this.line.first) {
      this.used += head.amount;
      this.line.serve(head);
      this.sim.schedule(head, this.sim.now, RANK.grant);
    }
    this.stats.inUse.set(this.used);
  }
}

class Seize implements Wait {
  units = 1;
  priority = 0;
  private readonly resource: Resource;

  constructor(resource: Resource) {
    this.resource = resource;
  }

  begin(process: Process): boolean {
    if (this.resource.admit(this.units)) return true;
    process.amount = this.units;
    process.priority = this.priority;
    this.resource.queue(process);
    return false;
  }

  cancel(process: Process): void {
    this.resource.withdraw(process);
  }
}
