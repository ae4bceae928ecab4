/** The luck of one day: every draw belongs to a place and an activity, not to a machine, so that it survives a change of fleet. */
import { factorOf, type Streams } from "../kernel/index.ts";
import { ACTIVITIES, type Activity, type Variation } from "../scenario/types.ts";

const always = () => 1;

export class Luck {
  /** false: every duration is its mean, every load its nominal mass */ readonly varies: boolean;
  private readonly quantiles: Partial<Record<Activity, (u: number) => number>> = {};

  constructor(variation: Variation, private readonly streams: Streams) {
    for (const activity of ACTIVITIES) {
      const shape = variation[activity];
      if (shape && shape.kind !== "fixed") this.quantiles[activity] = factorOf(shape);
    }
    this.varies = Object.keys(this.quantiles).length > 0;
  }

  /** The k-th call gives the factor, mean 1, of the k-th time this activity starts at this place. */
  at(activity: Activity, place: string): () => number {
    const quantile = this.quantiles[activity];
    if (!quantile) return always;
    let uniform: (() => number) | null = null;
    return () => quantile((uniform ??= this.streams.stream(`${activity}/${place}`))());
  }

  /** Times between breakdowns and to repair, as factors of their means: exponential, or the mean itself on a day without variation. */
  fate(machine: string): () => number {
    if (!this.varies) return always;
    const exponential = factorOf({ kind: "exponential" });
    const uniform = this.streams.stream(`breakdown/${machine}`);
    return () => exponential(uniform());
  }
}
