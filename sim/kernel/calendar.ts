import { REFUSALS } from "./refusals.ts";

/** A closed time, s: from `from` up to, not including, `to`. */
export interface Interval { readonly from: number; readonly to: number }

/**
 * Scheduled availability: open except in the closed intervals. An instant at which an interval ends is open again; work that ends
 * exactly when an interval begins is done before it.
 */
export class Calendar {
  /** The closed intervals, sorted, and merged where they touch or overlap. */
  readonly closed: readonly Interval[];

  /** Intervals in any order; they may overlap, and one may last for ever. Refuses one that does not end after it begins. */
  constructor(closed: readonly Interval[]) {
    const merged: { from: number; to: number }[] = [];
    for (const { from, to } of closed.toSorted((a, b) => a.from - b.from)) {
      if (!(to > from) || from === -Infinity) throw new RangeError(REFUSALS.interval(from, to));
      const last = merged.at(-1);
      if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
      else merged.push({ from, to });
    }
    this.closed = merged;
  }

  /**
   * The instant at which `work` seconds of open time have passed since `start`: work in hand pauses when it closes and goes on with the
   * remainder. Exactly start + work when nothing closes in between. No work is done at `start`, even in a closed interval.
   * Infinity when it never opens long enough. Refuses negative work and times that are not finite.
   */
  finish(start: number, work: number): number {
    if (!(work >= 0 && work < Infinity && Math.abs(start) < Infinity)) throw new RangeError(REFUSALS.work(start, work));
    if (work === 0) return start;
    let at = start;
    let left = work;
    for (let i = this.next(start); i < this.closed.length; i += 1) {
      const { from, to } = this.closed[i]!;
      if (at + left <= from) break;
      if (from > at) left -= from - at;
      at = to;
    }
    return at + left;
  }

  /** Open seconds between two times; 0 when `to` is not after `from`. */
  open(from: number, to: number): number {
    if (!(to > from)) return 0;
    let open = to - from;
    for (let i = this.next(from); i < this.closed.length && this.closed[i]!.from < to; i += 1) {
      open -= Math.min(to, this.closed[i]!.to) - Math.max(from, this.closed[i]!.from);
    }
    return open;
  }

  isOpen(time: number): boolean {
    const interval = this.closed[this.next(time)];
    return interval === undefined || time < interval.from;
  }

  /** The time itself when it is open then, else when it opens next; Infinity when never. */
  nextOpen(time: number): number {
    const interval = this.closed[this.next(time)];
    return interval === undefined || time < interval.from ? time : interval.to;
  }

  /** Index of the first interval that ends after `time`. */
  private next(time: number): number {
    let low = 0;
    let high = this.closed.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.closed[middle]!.to > time) high = middle;
      else low = middle + 1;
    }
    return low;
  }
}
