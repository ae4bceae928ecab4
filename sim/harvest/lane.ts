/** A single-lane stretch of road: trucks in one direction at a time, first come, first served. */
import { hold, type Work } from "../kernel/index.ts";
import type { Lane as LaneShape } from "../scenario/types.ts";
import { endure, work } from "./machine.ts";
import type { Truck } from "./truck.ts";
import type { Yard } from "./yard.ts";

export type Direction = "loaded" | "empty";

export class Lane {
  private readonly line: { truck: Truck; direction: Direction }[] = [];
  private inside = 0;
  private direction: Direction | null = null;
  private turning = false;

  constructor(private readonly yard: Yard, readonly shape: LaneShape) {}

  /** Joins the line; the truck is called when it may drive in. */
  join(truck: Truck, direction: Direction): void {
    this.line.push({ truck, direction });
    this.admit();
  }

  /** Steps out of the line, unless it has been let in already. */
  leaveLine(truck: Truck): void {
    const at = this.line.findIndex((waiting) => waiting.truck === truck);
    if (at >= 0) this.line.splice(at, 1);
  }

  leave(): void {
    this.inside--;
    this.admit();
  }

  /** Lets in, in the order of the line, whoever drives the way the lane runs; an empty lane may turn, which takes the meeting time. */
  private admit(): void {
    for (let next = this.line[0]; next && !this.turning; next = this.line[0]) {
      if (this.inside > 0 && next.direction !== this.direction) return;
      if (this.direction !== null && next.direction !== this.direction && this.shape.meeting > 0) {
        this.turning = true;
        this.yard.clock.sim.spawn(this.turn(next.direction), { name: "lane turns" });
        return;
      }
      this.direction = next.direction;
      this.inside++;
      this.line.shift();
      next.truck.letIn = true;
      next.truck.called.fire();
    }
  }

  private *turn(direction: Direction): Work {
    const { sim, breaks } = this.yard.clock;
    yield hold(breaks.finish(sim.now, this.shape.meeting) - sim.now);
    this.turning = false;
    this.direction = direction;
    this.admit();
  }
}

/** Waits for the lane to run its way and drives through. Returns the instant it was let in. */
export function* passLane(lane: Lane, truck: Truck, direction: Direction, slow: number): Work<number> {
  const { machine } = truck;
  machine.enter("lane");
  truck.letIn = false;
  lane.join(truck, direction);
  while (!truck.letIn) {
    try {
      yield truck.called.wait();
    } catch (stop) {
      lane.leaveLine(truck);
      yield* endure(machine, stop);
      machine.enter("lane");
      if (!truck.letIn) lane.join(truck, direction);
    }
  }
  const inLane = machine.clock.sim.now;
  yield work(machine, (lane.shape.length / lane.shape.speed) * slow, direction === "loaded" ? "loaded-road" : "empty-road");
  lane.leave();
  return inLane;
}
