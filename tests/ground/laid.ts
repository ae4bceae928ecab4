/** Fields laid out by geodesics, and maps that hold them. */
import fc from "fast-check";
import { EARTH } from "../../sim/ground/plane.ts";
import type { Place } from "../../sim/ground/plane.ts";

/** The place so many metres from another along a bearing. */
export function away(from: Place, bearing: number, length: number): Place {
  const { lat2 = NaN, lon2 = NaN } = EARTH.Direct(from.lat, from.lon, bearing, length);
  return { lat: lat2, lon: lon2 };
}

/** A rectangle about its middle, `length` along the bearing and `width` across it. */
export function rectangle(middle: Place, bearing: number, length: number, width: number): Place[] {
  const reach = Math.hypot(length, width) / 2;
  const half = (Math.atan2(width, length) * 180) / Math.PI;
  return [bearing + half, bearing + 180 - half, bearing + 180 + half, bearing - half].map((corner) => away(middle, corner, reach));
}

export const position = ({ lat, lon }: Place): [number, number] => [lon, lat];

export const closed = (ring: readonly Place[]): [number, number][] => [...ring, ring[0]!].map(position);

export const polygon = (...rings: readonly (readonly Place[])[]) => ({ type: "Polygon", coordinates: rings.map(closed) });

export const multiPolygon = (...parts: readonly (readonly (readonly Place[])[])[]) => ({ type: "MultiPolygon", coordinates: parts.map((rings) => rings.map(closed)) });

export const feature = (geometry: unknown, properties: Record<string, unknown> = {}) => ({ type: "Feature", properties, geometry });

export const mapOf = (...features: unknown[]): string => JSON.stringify({ type: "FeatureCollection", features });

export const gpx = (inner: string): string => `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="a test" xmlns="http://www.topografix.com/GPX/1/1">${inner}</gpx>`;

export const track = (places: readonly Place[], name = "Round"): string =>
  `<trk><name>${name}</name><trkseg>${places.map(({ lat, lon }) => `<trkpt lat="${lat}" lon="${lon}"><ele>80</ele></trkpt>`).join("")}</trkseg></trk>`;

/** Anywhere that something is cut. */
export const anywhere: fc.Arbitrary<Place> = fc.record({ lat: fc.double({ min: -75, max: 75, noNaN: true }), lon: fc.double({ min: -180, max: 180, noNaN: true }) });

/** A field seen whole from its middle: corners at growing bearings, no two neighbours half a turn apart, so that no sides cross. */
export const anyField: fc.Arbitrary<Place[]> = fc.record({
  middle: anywhere,
  start: fc.double({ min: 0, max: 360, noNaN: true }),
  corners: fc.array(fc.record({ turn: fc.double({ min: 1, max: 2, noNaN: true }), reach: fc.double({ min: 60, max: 1500, noNaN: true }) }), { minLength: 5, maxLength: 20 }),
}).map(({ middle, start, corners }) => {
  const whole = corners.reduce((sum, { turn }) => sum + turn, 0);
  let bearing = start;
  return corners.map(({ turn, reach }) => {
    bearing += (360 * turn) / whole;
    return away(middle, bearing, reach);
  });
});
