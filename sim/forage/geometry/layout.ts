/** Where each lift lies in the long section: slanting slices between the front as it was and the front as it came to be. */
import { toeFor } from "./body.ts";
import { backAt, profileOf, topBehind } from "./shape.ts";
import type { Profile, Shape } from "./shape.ts";

/** m: x from the back towards the apron, y up from the floor. */
export type Point = readonly [x: number, y: number];

/** Corners in turn, floor first, towards the apron; not closed. */
export type Polygon = readonly Point[];

/**
 * The outline of each lift in the long section, in the order laid; none for a lift without volume. The section is drawn to scale along the middle of
 * the storage; it stands for volume through the width at each height, so that `volumeOfSection` gives back the lift's own, to 1e-9. In a bunker that is
 * area x width. Slices meet without gap or overlap. What is more than fits runs on past the end.
 * @param volumes m3, by lift, as it lies in the end
 */
export function layoutOf(shape: Shape, volumes: readonly number[]): Polygon[][] {
  const profile = profileOf(shape);
  let sum = 0;
  let toe = 0;
  return volumes.map((volume) => {
    if (!(volume > 0)) return [];
    sum += volume;
    const from = toe;
    toe = toeFor(shape, sum);
    return [slice(profile, from, toe)];
  });
}

/** Between two positions of the toe. */
function slice(profile: Profile, from: number, to: number): Polygon {
  const lower = crest(profile, from);
  const upper = crest(profile, to);
  const outline: Point[] = [[from, 0], [to, 0], upper];
  // A slice that reaches higher up the back than the one before follows it down, over each edge.
  if (lower[1] < upper[1]) {
    outline.push([backAt(profile, upper[1]), upper[1]]);
    for (const { to: edge } of [...profile.bands].reverse()) {
      if (edge < upper[1] && edge > lower[1]) outline.push([backAt(profile, edge), edge]);
    }
  }
  outline.push(lower);
  return withoutDoubles(outline);
}

/** Upper end of the front that has this toe: on the back while the wedge grows. */
function crest(profile: Profile, toe: number): Point {
  const y = topBehind(profile, toe);
  const back = backAt(profile, y);
  return [y < profile.top ? back : Math.max(back, toe - profile.front * y), y];
}

/** Corners that differ only by rounding are one. */
function withoutDoubles(outline: readonly Point[]): Point[] {
  const near = ([x, y]: Point, [u, v]: Point) => Math.abs(x - u) + Math.abs(y - v) <= 1e-14 * (Math.abs(x) + Math.abs(y));
  const corners = outline.filter((point, i) => i === 0 || !near(point, outline[i - 1]!));
  if (corners.length > 1 && near(corners[0]!, corners.at(-1)!)) corners.pop();
  return corners;
}

/** m3 that a polygon of the section stands for: the storage's width at each height, summed over it. Exact; corners in the order of `layoutOf`, which the tests check by it. */
export function volumeOfSection(shape: Shape, polygon: Polygon): number {
  const { bands } = profileOf(shape);
  // By Green's theorem the sum over the polygon is that of x times width along its edges; both are straight between the edges of a band.
  // x is counted from the first corner, so that a small slice far from the back keeps its digits.
  const zero = polygon[0]?.[0] ?? 0;
  let volume = 0;
  polygon.forEach(([x0, y0], i) => {
    const [x1, y1] = polygon[(i + 1) % polygon.length]!;
    for (const { from, to, width, narrowing } of bands) {
      const [a, b] = [clamped(y0, from, to), clamped(y1, from, to)];
      if (a === b) continue;
      const along = (y: number) => (x0 - zero + ((x1 - x0) * (y - y0)) / (y1 - y0)) * (width - narrowing * (y - from));
      volume += ((b - a) / 6) * (along(a) + 4 * along((a + b) / 2) + along(b)); // Simpson: exact up to cubes
    }
  });
  return volume;
}

const clamped = (y: number, low: number, high: number): number => Math.min(high, Math.max(low, y));
