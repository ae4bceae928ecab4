/** An outline as a plan keeps it: GeoJSON of its own, closed, and no longer than it need be, since a plan may travel in an address. */
import { MAP_LIMITS } from "./limits.ts";
import type { Outline, Ring } from "./outline.ts";
import { straightened } from "./straightened.ts";

type Position = readonly [lon: number, lat: number];
export type Geometry =
  | { readonly type: "Polygon"; readonly coordinates: readonly (readonly Position[])[] }
  | { readonly type: "MultiPolygon"; readonly coordinates: readonly (readonly (readonly Position[])[])[] };

/**
 * RFC 7946 geometry, degrees to the seventh decimal, about a centimetre. A ring of more than `MAP_LIMITS.keptPoints` points is thinned: none that is left out lies
 * further than `MAP_LIMITS.kept` (m) from the sides that are kept.
 */
export function geometryOf({ parts }: Outline): Geometry {
  const polygons = parts.map(({ outer, holes }) => [outer, ...holes].map(positionsOf));
  return polygons.length === 1 ? { type: "Polygon", coordinates: polygons[0]! } : { type: "MultiPolygon", coordinates: polygons };
}

function positionsOf({ places, points }: Ring): readonly Position[] {
  const kept = points.length > MAP_LIMITS.keptPoints ? new Set(straightened(points, MAP_LIMITS.kept)) : null;
  const positions = places.filter((_, i) => kept === null || kept.has(points[i]!)).map(({ lat, lon }): Position => [rounded(lon), rounded(lat)]);
  return [...positions, positions[0]!];
}

const rounded = (degrees: number): number => Number(degrees.toFixed(7));
