/** Areas against an independent library, and what must not change them. */
import { geoArea } from "d3";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fieldsFromMap } from "../../sim/ground/fields.ts";
import { ringArea } from "../../sim/ground/measures.ts";
import type { Place } from "../../sim/ground/plane.ts";
import { runs } from "../kernel/runs.ts";
import { anyField, away, closed, feature, mapOf, multiPolygon, polygon, rectangle } from "./laid.ts";

/** WGS84: half the longer axis (m) and the eccentricity, by definition of the system. */
const AXIS = 6_378_137;
const FLATTENING = 1 / 298.257223563;
const E = Math.sqrt(FLATTENING * (2 - FLATTENING));

/**
 * d3 knows spheres only. Authalic latitudes carry the ellipsoid onto a sphere of the same surface so that every area stays what it is
 * (J. P. Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395, 1987, formulas 3-11 to 3-13).
 */
const q = (lat: number): number => {
  const s = Math.sin((lat * Math.PI) / 180);
  return (1 - E * E) * (s / (1 - (E * s) ** 2) - Math.log((1 - E * s) / (1 + E * s)) / (2 * E));
};
const authalic = ({ lat, lon }: Place): Place => ({ lat: (Math.asin(q(lat) / q(90)) * 180) / Math.PI, lon });
const AUTHALIC_RADIUS = AXIS * Math.sqrt(q(90) / 2);

/** m2 by d3 on a sphere; it reads a ring that runs the other way as all the rest of the Earth. */
function onSphere(ring: readonly Place[], radius: number): number {
  const angle = geoArea({ type: "Polygon", coordinates: [closed(ring)] });
  return Math.min(angle, 4 * Math.PI - angle) * radius ** 2;
}

/** The mean radius of the Earth, as maps on a sphere take it. */
const MEAN_RADIUS = 6_371_008.8;

const hectares = (geometry: unknown): number => {
  const { fields, problems } = fieldsFromMap(mapOf(feature(geometry)));
  expect(problems).toEqual([]);
  return parseFloat(fields[0]!.area);
};

/** Written with five significant digits: half a unit of the last is 1 in 20,000 at the worst. */
const ROUNDED = 1 / 20_000;

const near = (value: number, wanted: number, share: number) => {
  expect(Math.abs(value / wanted - 1), `${value} beside ${wanted}`).toBeLessThanOrEqual(share);
};

describe("The area of a field", () => {
  it("is within a tenth of 0.1 % of what an independent library makes of it, at every latitude", () => {
    fc.assert(fc.property(anyField, (ring) => {
      near(ringArea(ring), onSphere(ring.map(authalic), AUTHALIC_RADIUS), 1e-4);
    }), runs(500));
  });

  it("would be off by more than 0.1 % on a sphere of the mean radius: by 0.45 % at the equator, by 0.56 % the other way at 60 degrees", () => {
    const off = (lat: number) => {
      const ring = rectangle({ lat, lon: 8 }, 0, 500, 400);
      return onSphere(ring, MEAN_RADIUS) / ringArea(ring) - 1;
    };
    expect(off(0)).toBeCloseTo(0.0045, 3);
    expect(off(60)).toBeCloseTo(-0.0056, 3);
    expect(Math.abs(off(35))).toBeLessThan(0.001);
  });

  it("is length times width of a rectangle, in hectares", () => {
    for (const lat of [-60, -20, 0, 35, 52, 70]) near(hectares(polygon(rectangle({ lat, lon: 8.3 }, 30, 700, 200))), 14, ROUNDED);
  });

  it("leaves out holes and adds the parts of a field that lies in several, also beyond 180 degrees of longitude", () => {
    for (const lon of [8.3, 179.999, -180]) {
      const middle = { lat: 52, lon };
      const hole = rectangle(middle, 10, 100, 50);
      const other = rectangle(away(middle, 90, 900), 10, 300, 100);
      near(hectares(multiPolygon([rectangle(middle, 10, 500, 400), hole], [other])), 20 - 0.5 + 3, ROUNDED);
      near(hectares(multiPolygon([rectangle(middle, 10, 500, 400), rectangle(middle, 10, 300, 300)], [hole])), 20 - 9 + 0.5, ROUNDED);
    }
  });

  it("does not depend on which way round a ring runs or where it begins, and neither do rows and distance", () => {
    fc.assert(fc.property(anyField, fc.nat(), fc.boolean(), (ring, shift, turned) => {
      const at = shift % ring.length;
      const same = [...ring.slice(at), ...ring.slice(0, at)];
      if (turned) same.reverse();
      const [one, other] = [ring, same].map((places) => fieldsFromMap(mapOf(feature(polygon(places))), { storageAt: ring[0]! }).fields[0]!);
      near(parseFloat(other!.area), parseFloat(one!.area), 2 * ROUNDED);
      near(parseFloat(other!.rowLength!), parseFloat(one!.rowLength!), 1e-3 + 1 / 1000);
      expect(Math.abs(parseFloat(other!.distance!) - parseFloat(one!.distance!))).toBeLessThanOrEqual(0.001001);
    }), runs(300));
  });
});
