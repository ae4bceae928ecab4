/** Places on the Earth, and a flat plane about one of them on which a field is drawn true to within 1 in 100,000. */
import geographic from "geographiclib-geodesic";
import { MAP_LIMITS } from "./limits.ts";

/** The ellipsoid of WGS84, to which RFC 7946 and GPX refer. */
export const EARTH = geographic.Geodesic.WGS84;

/** degrees */
export interface Place { readonly lat: number; readonly lon: number }

/** m east and north of the middle of the plane */
export interface Point { readonly x: number; readonly y: number }

/** Length (m) and bearing (degrees clockwise from north, at the first) of the shortest line between two places on the ellipsoid. */
export function lineBetween(from: Place, to: Place): { readonly length: number; readonly bearing: number } {
  const { s12 = NaN, azi1 = NaN } = EARTH.Inverse(from.lat, from.lon, to.lat, to.lon);
  return { length: s12, bearing: azi1 };
}

/** True lengths and bearings from its middle (azimuthal equidistant); across, a length errs by (distance / Earth's radius)2 / 6: 1 in 100,000 at 50 km. */
export class Plane {
  constructor(private readonly middle: Place) {}

  pointOf(place: Place): Point {
    const { length, bearing } = lineBetween(this.middle, place);
    const angle = (bearing * Math.PI) / 180;
    return { x: length * Math.sin(angle), y: length * Math.cos(angle) };
  }

  placeOf({ x, y }: Point): Place {
    const { lat2 = NaN, lon2 = NaN } = EARTH.Direct(this.middle.lat, this.middle.lon, (Math.atan2(x, y) * 180) / Math.PI, Math.hypot(x, y));
    return { lat: lat2, lon: lon2 };
  }
}

/** "52.10031 N, 8.29870 E": to about a metre. */
export function placed({ lat, lon }: Place): string {
  const [north, east] = [lat.toFixed(5), lon.toFixed(5)];
  return `${north.replace("-", "")} ${lat < 0 ? "S" : "N"}, ${east.replace("-", "")} ${lon < 0 ? "W" : "E"}`;
}

/** Where the level line at `y` runs through the rings: pairs of x, in order; what lies in an odd number of rings is inside. */
export function spansAt(rings: readonly (readonly Point[])[], y: number): readonly (readonly [number, number])[] {
  const cuts: number[] = [];
  for (const ring of rings) {
    let from = ring.at(-1)!;
    for (const to of ring) {
      if ((from.y <= y) !== (to.y <= y)) cuts.push(from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x));
      from = to;
    }
  }
  cuts.sort((a, b) => a - b);
  return cuts.flatMap((cut, i) => (i % 2 === 1 ? [[cuts[i - 1]!, cut] as const] : []));
}

/** True inside the ring; on its edge either. */
export function isInside({ x, y }: Point, ring: readonly Point[]): boolean {
  let inside = false;
  let from = ring.at(-1)!;
  for (const to of ring) {
    if ((from.y <= y) !== (to.y <= y) && x < from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x)) inside = !inside;
    from = to;
  }
  return inside;
}

/** True for a point on the ring, within what counts as touching. */
export function isOnEdge(point: Point, ring: readonly Point[]): boolean {
  let from = ring.at(-1)!;
  for (const to of ring) {
    if (distanceToSide(point, from, to) <= MAP_LIMITS.touch) return true;
    from = to;
  }
  return false;
}

/** m from a point to the nearest of a side. */
export function distanceToSide(point: Point, from: Point, to: Point): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const share = square > 0 ? Math.min(1, Math.max(0, ((point.x - from.x) * dx + (point.y - from.y) * dy) / square)) : 0;
  return Math.hypot(point.x - from.x - share * dx, point.y - from.y - share * dy);
}
