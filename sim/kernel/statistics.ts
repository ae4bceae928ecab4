/** Anything that knows the time: a simulation. */
export interface Clock { readonly now: number }

/**
 * A value that lasts: its mean, peak and area over time. Updated only when the value changes or somebody asks.
 * The peak is the largest value that lasted longer than an instant: what is put and taken, or joins and is served,
 * within one instant was never there for anybody to see, and its order within the instant must not show in a result.
 */
export class TimeWeighted {
  private readonly clock: Clock;
  private readonly start: number;
  private since: number;
  private held: number;
  private sum = 0;
  private high: number;

  constructor(clock: Clock, value = 0) {
    this.clock = clock;
    this.start = clock.now;
    this.since = clock.now;
    this.held = value;
    this.high = -Infinity;
  }

  /** The present value. */
  get value(): number {
    return this.held;
  }

  /** The value from this instant on. */
  set(value: number): void {
    const now = this.clock.now;
    const span = now - this.since;
    if (span > 0) {
      this.sum += this.held * span;
      if (this.held > this.high) this.high = this.held;
      this.since = now;
    }
    this.held = value;
  }

  /** Value x seconds since it was made. */
  get area(): number {
    return this.sum + this.held * (this.clock.now - this.since);
  }

  /** Area over time; the present value when no time has passed. */
  get mean(): number {
    const span = this.clock.now - this.start;
    return span > 0 ? this.area / span : this.held;
  }

  /** Largest value that lasted; the present value when no time has passed. */
  get peak(): number {
    const lasting = this.clock.now > this.since || this.high === -Infinity;
    return lasting && this.held > this.high ? this.held : this.high;
  }
}

/** Count, mean, standard deviation, least and largest of single values, in one pass (Welford 1962, Technometrics 4(3):419-420). */
export class Tally {
  n = 0;
  private average = 0;
  private squares = 0;
  private least = Infinity;
  private largest = -Infinity;

  add(value: number): void {
    const n = (this.n += 1);
    const off = value - this.average;
    this.average += off / n;
    this.squares += off * (value - this.average);
    if (value < this.least) this.least = value;
    if (value > this.largest) this.largest = value;
  }

  /** NaN when there is no value. */
  get mean(): number {
    return this.n > 0 ? this.average : NaN;
  }

  /** Sample standard deviation; NaN under two values. */
  get sd(): number {
    return this.n > 1 ? Math.sqrt(this.squares / (this.n - 1)) : NaN;
  }

  /** NaN when there is no value. */
  get min(): number {
    return this.n > 0 ? this.least : NaN;
  }

  /** NaN when there is no value. */
  get max(): number {
    return this.n > 0 ? this.largest : NaN;
  }

  /** Mean x count; 0 when there is no value. */
  get sum(): number {
    return this.average * this.n;
  }
}
