/** A ring without what a satellite receiver makes of a straight side: only the corners are kept. */
import { distanceToSide } from "./plane.ts";
import type { Point } from "./plane.ts";

/**
 * The corners from which no point of the ring lies further than `within` (m): D. H. Douglas and T. K. Peucker, "Algorithms for the reduction of the number of points
 * required to represent a digitized line", The Canadian Cartographer 10, 1973. It begins at the point furthest from the ring's mean and at the one
 * furthest from that, so that nothing hangs on where the ring begins or which way round it runs.
 */
export function straightened(ring: readonly Point[], within: number): readonly Point[] {
  const mean = { x: ring.reduce((sum, { x }) => sum + x, 0) / ring.length, y: ring.reduce((sum, { y }) => sum + y, 0) / ring.length };
  const start = furthestFrom(mean, ring);
  const turned = [...ring.slice(start), ...ring.slice(0, start), ring[start]!];
  const across = furthestFrom(turned[0]!, turned);
  const kept = new Set([0, across]);
  const open: [number, number][] = [[0, across], [across, turned.length - 1]];
  for (let next = open.pop(); next; next = open.pop()) {
    const [from, to] = next;
    let [furthest, most] = [-1, within];
    for (let i = from + 1; i < to; i += 1) {
      const distance = distanceToSide(turned[i]!, turned[from]!, turned[to]!);
      if (distance > most) [furthest, most] = [i, distance];
    }
    if (furthest < 0) continue;
    kept.add(furthest);
    open.push([from, furthest], [furthest, to]);
  }
  return [...kept].sort((a, b) => a - b).map((i) => turned[i]!);
}

function furthestFrom({ x, y }: Point, points: readonly Point[]): number {
  let [index, most] = [0, -1];
  points.forEach((point, i) => {
    const distance = Math.hypot(point.x - x, point.y - y);
    if (distance > most) [index, most] = [i, distance];
  });
  return index;
}
