/** A chopper's standing, charged to its cause the moment the cause changes. */
import type { WaitCause } from "./daylog.ts";
import type { Chopper } from "./chopper.ts";
import type { Yard } from "./yard.ts";

export class Waits {
  private readonly standing: { chopper: Chopper; since: number; cause: WaitCause }[] = [];

  constructor(private readonly yard: Yard) {}

  /** The chopper stands and waits for a truck. */
  begin(chopper: Chopper): void {
    this.standing.push({ chopper, since: this.yard.clock.sim.now, cause: this.causeFor(chopper) });
  }

  end(chopper: Chopper): void {
    const at = this.standing.findIndex((wait) => wait.chopper === chopper);
    if (at < 0) return;
    this.book(this.standing[at]!);
    const last = this.standing.pop()!;
    if (at < this.standing.length) this.standing[at] = last;
  }

  /** Something at a storage has changed: whoever stands may now stand for another reason. */
  recharge(): void {
    for (const wait of this.standing) {
      this.book(wait);
      wait.cause = this.causeFor(wait.chopper);
    }
  }

  private book(wait: { chopper: Chopper; since: number; cause: WaitCause }): void {
    const { sim, breaks } = this.yard.clock;
    wait.chopper.waits[wait.cause] += breaks.open(wait.since, sim.now);
    wait.since = sim.now;
  }

  /**
   * The storage's, if one of its trucks stands there queued: at the scale, weighing; before an apron that is full while the blades
   * wait for packing, packing; while they push, spreading; else tipping. The furthest down the road counts. With none queued: hauling.
   */
  private causeFor(chopper: Chopper): WaitCause {
    let cause: WaitCause = "hauling";
    for (const truck of this.yard.trucks) {
      if (truck.queue === null || !truck.mayServe(chopper)) continue;
      if (truck.queue === "scale") {
        if (cause === "hauling") cause = "weighing";
        continue;
      }
      const clamp = this.yard.clamps[truck.trip!.storage]!;
      if (clamp.fits(truck.trip!.mass)) cause = "tipping";
      else return clamp.waitsForPacking ? "packing" : clamp.pushes ? "spreading" : "tipping";
    }
    return cause;
  }
}
