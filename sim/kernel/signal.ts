import { RANK } from "./ladder.ts";
import { WaitingLine } from "./line.ts";
import type { Closing, Process, Wait } from "./process.ts";
import { REFUSALS } from "./refusals.ts";
import type { Simulation } from "./simulation.ts";

/** Something that happens, and that processes wait for: "a truck is alongside", "the pace has changed". It keeps no memory. */
export class Signal<T = void> {
  private readonly sim: Simulation;
  private readonly line: WaitingLine;
  private readonly plain: Await;
  private readonly limited: AwaitUntil;

  constructor(sim: Simulation) {
    this.sim = sim;
    this.line = new WaitingLine(sim);
    this.plain = new Await(this.line);
    this.limited = new AwaitUntil(this.line);
  }

  /** How many processes are waiting. */
  get waiting(): number {
    return this.line.length;
  }

  /** Waits for the next firing; the yield brings its value. Yield it at once: the object is reused. */
  wait(): Wait {
    return this.plain;
  }

  /** Waits at most `seconds`: true when it fired, false when time ran out. A firing at the very last instant counts. Yield it at once. */
  within(seconds: number): Wait {
    return this.by(this.sim.now + seconds);
  }

  /** As `within`, with an absolute time, s; Infinity is a plain wait that brings true. A time in the past is refused. Yield it at once. */
  by(time: number): Wait {
    if (!(time >= this.sim.now)) throw new RangeError(REFUSALS.past("time limit", time, this.sim.now));
    this.limited.time = time;
    return this.limited;
  }

  /** Wakes all who wait, in order of waiting, at this instant. Who begins to wait later waits for the next firing. */
  fire(...[value]: T extends void ? [] : [value: T]): void {
    for (let head = this.line.first; head !== null; head = this.line.first) {
      this.line.serve(head);
      if (head.wait === this.limited) {
        head.closing = null;
        head.value = true;
      } else head.value = value;
      this.sim.schedule(head, this.sim.now, RANK.grant);
    }
  }
}

class Await implements Wait {
  protected readonly line: WaitingLine;

  constructor(line: WaitingLine) {
    this.line = line;
  }

  begin(process: Process, _simulation: Simulation): boolean {
    process.priority = 0;
    this.line.join(process);
    return false;
  }

  /** A firing not yet delivered is lost to the one who is interrupted: there is nothing to hand back. */
  cancel(process: Process): void {
    if (process.line !== null) this.line.leave(process);
  }
}

/** Stands in the line and in the list of events; whichever comes first ends the other. */
class AwaitUntil extends Await implements Closing {
  time = Infinity;

  override begin(process: Process, simulation: Simulation): boolean {
    super.begin(process, simulation);
    if (this.time < Infinity) {
      simulation.schedule(process, this.time, RANK.lapse);
      process.closing = this;
    }
    return false;
  }

  /** Time ran out. */
  close(process: Process): void {
    this.line.leave(process);
    process.value = false;
  }
}
