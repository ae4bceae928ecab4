/** What the readers of map files hand on: shapes as they were drawn or driven, not yet checked for sense. */
import type { Path } from "../scenario/words.ts";
import { MAP_LIMITS } from "./limits.ts";
import type { Place } from "./plane.ts";

/** A ring as it stands in the file, with the closing point or without. */
export interface DrawnRing { readonly path: Path; readonly places: readonly Place[] }

/** One feature of a map that has an area, or a round that was driven. */
export interface Drawn {
  readonly path: Path;
  /** its number in the file, from 1 */ readonly number: number;
  /** as the file says it, cleaned of nothing */ readonly name: unknown;
  /** what else the file says about it */ readonly given: Readonly<Record<string, unknown>>;
  /** of each part the outer ring, then its holes */ readonly parts: readonly (readonly DrawnRing[])[];
  /** a track or route: begins and ends where the driver did */ readonly driven: boolean;
}

/** Why this is no place where a field could lie, as the end of a sentence; null where it is one. */
export function placeTrouble(lon: number, lat: number, order: "turnable" | "named"): string | null {
  const shown = `${Number(lon.toPrecision(9))}, ${Number(lat.toPrecision(9))}`;
  if (Math.abs(lon) > 1000 || Math.abs(lat) > 1000) {
    return `is ${shown}: metres of another reference system, as it seems; save the map as WGS84 (EPSG:4326), longitude and latitude in degrees`;
  }
  if (Math.abs(lat) > 90 && Math.abs(lon) <= 90 && order === "turnable") {
    return `is ${shown}, and no latitude is beyond 90: the order seems turned round; longitude comes first, then latitude`;
  }
  if (Math.abs(lat) > 90) return `is ${shown}: a latitude lies between -90 and 90`;
  if (Math.abs(lon) > 180) return `is ${shown}: a longitude lies between -180 and 180`;
  if (Math.abs(lat) > MAP_LIMITS.latitude) return `is ${shown}: nothing is cut within ${90 - MAP_LIMITS.latitude} degrees of a pole`;
  return null;
}
