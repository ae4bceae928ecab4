/** Steps after which the last guess is good enough whatever happens; from a good bracket ten are plenty. */
const STEPS = 200;

/**
 * Root of a rising function between two ends, to the last digits of a double: Newton's steps, and halving wherever one would leave
 * the ends. `slope` may be 0 where the function is flat.
 */
export function rootOf(value: (x: number) => number, slope: (x: number) => number, low: number, high: number): number {
  let x = high;
  for (let step = 0; step < STEPS; step++) {
    const f = value(x);
    if (f === 0) return x;
    if (f < 0) low = x;
    else high = x;
    let next = x - f / slope(x);
    if (!(next >= low && next <= high)) next = low + (high - low) / 2;
    if (Math.abs(next - x) <= 1e-15 * Math.abs(x)) return next;
    x = next;
  }
  return x;
}
