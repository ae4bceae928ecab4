/**
 * Area and middle of an outline. The area is taken on the ellipsoid of WGS84 (C. F. F. Karney, "Algorithms for geodesics", J. Geodesy 87,
 * 2013, by his own library). A sphere of the Earth's mean radius would not do: with the latitudes of a map taken as they are, it is off by
 * 0.45 % at the equator and by 0.56 % the other way at 60 degrees (tests/ground/area.test.ts).
 */
import type { Outline, Ring } from "./outline.ts";
import { EARTH } from "./plane.ts";
import type { Place, Point } from "./plane.ts";

/** m2, holes taken off. */
export function areaOf({ parts }: Outline): number {
  return parts.reduce((total, { outer, holes }) => total + holes.reduce((left, hole) => left - ringArea(hole.places), ringArea(outer.places)), 0);
}

/** m2 within a ring, whichever way round it runs. */
export function ringArea(places: readonly Place[]): number {
  const polygon = EARTH.Polygon(false);
  for (const { lat, lon } of places) polygon.AddPoint(lat, lon);
  return Math.abs(polygon.Compute(false, true).area ?? NaN);
}

/** The middle of the area, holes and parts weighed; it may lie outside of a bent field. */
export function middleOf({ parts, plane }: Outline): Place {
  const pieces = parts.flatMap(({ outer, holes }) => [momentOf(outer, 1), ...holes.map((hole) => momentOf(hole, -1))]);
  const area = pieces.reduce((sum, piece) => sum + piece.area, 0);
  const middle: Point = { x: pieces.reduce((sum, { x }) => sum + x, 0) / area, y: pieces.reduce((sum, { y }) => sum + y, 0) / area };
  return plane.placeOf(middle);
}

/** Area of a ring and its first moments, by the shoelace formula about its own first corner, which keeps the digits of small rings. */
function momentOf({ points }: Ring, sign: 1 | -1): { area: number; x: number; y: number } {
  const origin = points[0]!;
  let [area, x, y] = [0, 0, 0];
  points.forEach((corner, i) => {
    const next = points[(i + 1) % points.length]!;
    const [ax, ay, bx, by] = [corner.x - origin.x, corner.y - origin.y, next.x - origin.x, next.y - origin.y];
    const cross = ax * by - bx * ay;
    area += cross / 2;
    x += (cross * (ax + bx)) / 6;
    y += (cross * (ay + by)) / 6;
  });
  const turned = area < 0 ? -sign : sign;
  return { area: turned * area, x: turned * (x + area * origin.x), y: turned * (y + area * origin.y) };
}
