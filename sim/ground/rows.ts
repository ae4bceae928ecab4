/** Rows across an outline: which way they run, and how long they are on average between two turns. */
import { MAP_LIMITS } from "./limits.ts";
import type { Outline } from "./outline.ts";
import { spansAt } from "./plane.ts";
import type { Point } from "./plane.ts";

/** Level lines laid across an outline: ten times the rows of a middling field. */
const LINES = 1000;

/** m: about the width of a chopper's row. Teeth of an edge that are narrower cut no row in two. Assumption of this project. */
const ROW = 6;

/** Sides that differ by less (m) are equally long; the one whose bearing is least is taken, so that the result hangs on no order of points. */
const EQUALLY_LONG = 0.001;

/**
 * The mean length (m) of rows that run along `bearing` (degrees clockwise from north). A row that a hole or a bend cuts in two counts as two:
 * the machine turns at each end. Area over working width and this length is the number of rows.
 */
export function meanRowLength({ parts }: Outline, bearing: number): number {
  const angle = (bearing * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const rings = parts.flatMap(({ outer, holes }) => [outer, ...holes])
    .map(({ points }) => points.map(({ x, y }): Point => ({ x: x * sin + y * cos, y: y * sin - x * cos })));
  let [low, high] = [Infinity, -Infinity];
  for (const ring of rings) {
    for (const { y } of ring) [low, high] = [Math.min(low, y), Math.max(high, y)];
  }
  const lines = Array.from({ length: LINES }, (_, line) => spansAt(rings, low + ((line + 0.5) / LINES) * (high - low)));
  const length = lines.flat().reduce((sum, [from, to]) => sum + to - from, 0);
  const rows = smoothed(lines.map((spans) => spans.length), (LINES * ROW) / (high - low)).reduce((sum, count) => sum + count, 0);
  return rows > 0 ? length / rows : 0;
}

/** The median of each count and those about it, so many in all; near the ends those next to the end. */
function smoothed(counts: readonly number[], width: number): number[] {
  if (counts.every((count) => count === counts[0])) return [...counts];
  const half = Math.floor(Math.min(width, counts.length - 1) / 2);
  return counts.map((_, i) => {
    const first = Math.min(Math.max(0, i - half), counts.length - 1 - 2 * half);
    return counts.slice(first, first + 2 * half + 1).sort((a, b) => a - b)[half]!;
  });
}

/**
 * The bearing (degrees, from 0 up to 180) of the longest side of the outer rings. Corners within `MAP_LIMITS.straight` of the line between two
 * others lie on one side with them, so that a side that was driven counts whole.
 */
export function longestSide({ parts }: Outline): number {
  const sides = parts.flatMap(({ outer }) => straightsOf(outer.points));
  const most = Math.max(...sides.map(({ length }) => length));
  return Math.min(...sides.filter(({ length }) => length >= most - EQUALLY_LONG).map(({ bearing }) => bearing));
}

interface Straight { readonly length: number; readonly bearing: number }

/** From each corner the longest straight run: the next corners are followed as long as one ray passes all of them closely enough. */
function straightsOf(points: readonly Point[]): Straight[] {
  return points.map((from, start) => {
    let [best, furthest] = [points[(start + 1) % points.length]!, 0];
    // The fan of directions, about the first one, that pass every corner so far; wide open at first.
    let [low, high, base] = [-Infinity, Infinity, NaN];
    for (let step = 1; step < points.length && low <= high; step += 1) {
      const to = points[(start + step) % points.length]!;
      const [east, north] = [to.x - from.x, to.y - from.y];
      // Not Math.hypot: this is the step that a side of many points takes most often, and hypot is many times slower.
      const distance = Math.sqrt(east * east + north * north);
      const direction = Math.atan2(east, north);
      if (Number.isNaN(base)) base = direction;
      const turned = aboutZero(direction - base);
      if (turned >= low && turned <= high && distance > furthest) [best, furthest] = [to, distance];
      if (distance <= MAP_LIMITS.straight) continue;
      const slack = Math.asin(MAP_LIMITS.straight / distance);
      [low, high] = [Math.max(low, turned - slack), Math.min(high, turned + slack)];
    }
    const bearing = (Math.atan2(best.x - from.x, best.y - from.y) * 180) / Math.PI;
    return { length: Math.hypot(best.x - from.x, best.y - from.y), bearing: ((bearing % 180) + 180) % 180 };
  });
}

/** The same angle between half a turn left and right. */
const aboutZero = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
