/** Rows across an outline: which way they run, and how long they are on average between two turns. */
import { MAP_LIMITS } from "./limits.ts";
import type { Outline } from "./outline.ts";
import type { Point } from "./plane.ts";
import { straightened } from "./straightened.ts";

/** Sides that differ by less (m) are equally long; the one whose bearing is least is taken, so that the result hangs on no order of points. */
const EQUALLY_LONG = 0.001;

/**
 * The mean length (m) of rows that run along `bearing` (degrees clockwise from north). A row that a hole or a bend cuts in two counts as two:
 * the machine turns at each end. Area over working width and this length is the number of rows.
 *
 * Each side of a ring is an end of the rows that meet it, as many as it is wide across them, and each row has two ends: so the mean is twice the area over
 * the widths of all sides. What is narrower than `MAP_LIMITS.straight` is no side and no hole: a machine drives on past it.
 */
export function meanRowLength(outline: Outline, bearing: number): number {
  const angle = (bearing * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  let [area, ends] = [0, 0];
  for (const { ring, isHole } of sidesOf(outline)) {
    let doubled = 0;
    ring.forEach(({ x, y }, i) => {
      const next = ring[(i + 1) % ring.length]!;
      doubled += x * next.y - next.x * y;
      ends += Math.abs((next.y - y) * sin - (next.x - x) * cos);
    });
    area += (isHole ? -1 : 1) * (Math.abs(doubled) / 2);
  }
  return ends > 0 ? (2 * area) / ends : 0;
}

/** The bearing (degrees, from 0 up to 180) of the longest side of the outer rings; a side that was driven counts whole. */
export function longestSide(outline: Outline): number {
  const sides = sidesOf(outline).filter(({ isHole }) => !isHole).flatMap(({ ring }) => ring.map((from, i) => {
    const to = ring[(i + 1) % ring.length]!;
    const bearing = (Math.atan2(to.x - from.x, to.y - from.y) * 180) / Math.PI;
    return { length: Math.hypot(to.x - from.x, to.y - from.y), bearing: ((bearing % 180) + 180) % 180 };
  }));
  const most = Math.max(...sides.map(({ length }) => length));
  return Math.min(...sides.filter(({ length }) => length >= most - EQUALLY_LONG).map(({ bearing }) => bearing));
}

/** The rings by their corners. A hole too narrow to have any is none; an outer ring too narrow stays as it was drawn. */
function sidesOf({ parts }: Outline): { readonly ring: readonly Point[]; readonly isHole: boolean }[] {
  return parts.flatMap(({ outer, holes }) => {
    const corners = straightened(outer.points, MAP_LIMITS.straight);
    return [
      { ring: corners.length < 3 ? outer.points : corners, isHole: false },
      ...holes.map(({ points }) => ({ ring: straightened(points, MAP_LIMITS.straight), isHole: true })).filter(({ ring }) => ring.length > 2),
    ];
  });
}
