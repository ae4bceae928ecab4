/** Plans of which no other is as good in everything and better in something. */

/** True when `a` is nowhere worse than `b` and somewhere better; every figure counts as "less is better". */
export function dominates(a: readonly number[], b: readonly number[]): boolean {
  return a.every((value, i) => value <= b[i]!) && a.some((value, i) => value < b[i]!);
}

/** Positions of the points that none dominates, in their order; of equal points all. */
export function frontOf(points: readonly (readonly number[])[]): number[] {
  return points.flatMap((point, i) => (points.some((other) => dominates(other, point)) ? [] : [i]));
}

/**
 * The front as far as anybody would notice: each figure counts in whole steps, and of points that come to the same the first is kept. Boxes
 * of this kind are the archive of Laumanns, Thiele, Deb & Zitzler 2002, Combining convergence and diversity in evolutionary multiobjective
 * optimization, Evolutionary Computation 10(3):263-282 (from memory).
 */
export function coarseFront(points: readonly (readonly number[])[], steps: readonly number[]): number[] {
  const boxes = points.map((point) => point.map((value, i) => Math.floor(value / steps[i]!)));
  const keys = boxes.map((box) => box.join(" "));
  return frontOf(boxes).filter((i) => keys.indexOf(keys[i]!) === i);
}
