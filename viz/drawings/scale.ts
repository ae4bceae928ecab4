/** From figures to px in a straight line. The one of d3 can also turn colours, dates and texts, which the first answer would wait for. */
import { tickIncrement, ticks } from "d3";

export interface Linear {
  (value: number): number;
  invert(px: number): number;
  /** round figures within it, about so many */ ticks(count?: number): number[];
  /** the same, its ends moved out to round figures */ nice(count?: number): Linear;
}

export function scaleLinear([from = 0, until = 1]: readonly number[], [start = 0, end = 1]: readonly number[]): Linear {
  const between = (a: number, b: number, share: number) => a * (1 - share) + b * share;
  const shareOf = (value: number, a: number, b: number) => (a === b ? 0.5 : (value - a) / (b - a));
  return Object.assign((value: number) => between(start, end, shareOf(value, from, until)), {
    invert: (px: number) => between(from, until, shareOf(px, start, end)),
    ticks: (count = 10) => ticks(from, until, count),
    nice: (count = 10) => scaleLinear(rounded(from, until, count), [start, end]),
  });
}

/** Steps after which the ends are as round as they will be. */
const ENOUGH = 10;

/** The ends moved out to round figures; as they are where there are none. A step below nothing stands for its inverse. */
function rounded(from: number, until: number, count: number): readonly [number, number] {
  let [low, high] = [from, until];
  let before = 0;
  for (let i = 0; i < ENOUGH; i++) {
    const step = tickIncrement(low, high, count);
    if (step === before) return [low, high];
    if (step > 0) [low, high] = [Math.floor(low / step) * step, Math.ceil(high / step) * step];
    else if (step < 0) [low, high] = [Math.ceil(low * step) / step, Math.floor(high * step) / step];
    else break;
    before = step;
  }
  return [from, until];
}
