import type { Process, Wait } from "./process.ts";
import { REFUSALS } from "./refusals.ts";
import type { Simulation } from "./simulation.ts";

/** Seconds to hold: `yield hold(30)` is `yield 30`, checked where it is written. Refuses negative, NaN and infinite times. */
export function hold(seconds: number): number {
  if (!(seconds >= 0 && seconds < Infinity)) throw new RangeError(REFUSALS.hold(seconds));
  return seconds;
}

/**
 * Holds until an absolute time, s, exactly: the event stands at `time` itself, not at now + (time - now), which rounds.
 * The present instant is allowed; the past, NaN and infinity are refused when it is yielded.
 */
export function until(time: number): Wait {
  return new Alarm().at(time);
}

/** The same for one who holds again and again and alone: set to another time each time, made once. */
export class Alarm implements Wait {
  private time = NaN;

  at(time: number): this {
    this.time = time;
    return this;
  }

  begin(process: Process, simulation: Simulation): boolean {
    const { time } = this;
    if (!(time >= simulation.now && time < Infinity)) throw new RangeError(REFUSALS.past("time to wait for", time, simulation.now));
    simulation.schedule(process, time, process.holdRank);
    return false;
  }

  /** The event itself is taken off the list by the simulation. */
  cancel(): void {}
}
