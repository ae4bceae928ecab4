/** The way from a field to the storage, where only coordinates are known. */
import { circuity } from "../forage/road.ts";
import type { Sourced } from "../forage/sourced.ts";
import { lineBetween } from "./plane.ts";
import type { Place } from "./plane.ts";

/** Length of the road over the straight line. It was measured in towns; that it holds for farm roads is an assumption of this project. */
export const roadFactor: Sourced = circuity;

/** The least and the most that may be given for it: no road is shorter than the straight line. */
export const ROAD_FACTORS = [1, 10] as const;

/** m by road, one way: the shortest line on the ellipsoid times the road factor. */
export function roadDistance(from: Place, to: Place, factor: number = roadFactor.value): number {
  return lineBetween(from, to).length * factor;
}

/** Reads "52.1, 8.3": latitude, then longitude, in degrees, as maps on a screen show them; or says what is wrong, as the end of a sentence. */
export function readPlace(text: string): Place | { readonly wrong: string } {
  const match = /^\s*([+-]?\d{1,3}(?:\.\d+)?)\s*[,;\s]\s*([+-]?\d{1,3}(?:\.\d+)?)\s*$/u.exec(text);
  if (!match) return { wrong: "latitude and longitude in degrees would do, such as \"52.1003, 8.2987\"" };
  const [lat, lon] = [Number(match[1]), Number(match[2])];
  if (Math.abs(lat) > 90) return { wrong: "a latitude lies between -90 and 90; it comes first here, then the longitude" };
  if (Math.abs(lon) > 180) return { wrong: "a longitude lies between -180 and 180" };
  return { lat, lon };
}
