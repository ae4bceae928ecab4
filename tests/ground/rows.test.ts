/** Rows, distance, and what of a map goes before its shapes. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readPlace, roadFactor } from "../../sim/ground/distance.ts";
import { fieldsFromMap } from "../../sim/ground/fields.ts";
import type { MapWishes } from "../../sim/ground/fields.ts";
import { isOutside } from "../../sim/forage/sourced.ts";
import type { Place } from "../../sim/ground/plane.ts";
import { runs } from "../kernel/runs.ts";
import { anywhere, away, feature, gpx, mapOf, multiPolygon, polygon, rectangle, track } from "./laid.ts";

const middle: Place = { lat: 52.1, lon: 8.3 };

const only = (text: string, wishes: MapWishes = {}) => {
  const { fields, problems } = fieldsFromMap(text, wishes);
  expect(problems).toEqual([]);
  expect(fields).toHaveLength(1);
  return fields[0]!;
};
const rowLength = (geometry: unknown, rowBearing?: number) => parseFloat(only(mapOf(feature(geometry)), rowBearing === undefined ? {} : { rowBearing }).rowLength!);

describe("Rows", () => {
  it("are as long as a rectangle along its longest side, and as it is wide across", () => {
    fc.assert(fc.property(anywhere, fc.double({ min: 0, max: 360, noNaN: true }), fc.integer({ min: 210, max: 900 }), fc.integer({ min: 50, max: 200 }), (at, bearing, length, width) => {
      const field = polygon(rectangle(at, bearing, length, width));
      // Four significant digits: half a unit of the last is 1 in 2,000 at the worst.
      expect(Math.abs(rowLength(field) / length - 1)).toBeLessThanOrEqual(0.0005);
    }), runs(200));
    for (const bearing of [0, 35, 90, 180, 300]) {
      expect(rowLength(polygon(rectangle(middle, bearing, 600, 150)), bearing)).toBeCloseTo(600, 0);
      expect(rowLength(polygon(rectangle(middle, bearing, 600, 150)), (bearing + 90) % 360)).toBeCloseTo(150, 0);
    }
  });

  it("are half the base of a triangle on average, along the base", () => {
    const [left, right] = [away(middle, 270, 300), away(middle, 90, 300)];
    expect(rowLength(polygon([left, right, away(middle, 0, 200)]))).toBeCloseTo(300, 0);
  });

  it("are cut in two by a hole: rows and turns are those of the pieces", () => {
    // 100 of 200 m of rows meet the hole of 60 m: a row of 400 m there is two of 170 m. (100 x 400 + 100 x 340) / (100 + 2 x 100).
    const field = polygon(rectangle(middle, 90, 400, 200), rectangle(middle, 90, 60, 100));
    expect(rowLength(field, 90)).toBeCloseTo(74_000 / 300, 0);
  });

  it("do not run on from one part of a field to the next", () => {
    const other = away(middle, 90, 420);
    expect(rowLength(multiPolygon([rectangle(middle, 90, 400, 100)], [rectangle(other, 90, 400, 100)]))).toBeCloseTo(400, 0);
  });

  it("follow sides that were driven, though their points lie left and right of them by up to two metres", () => {
    // No point lies further than 4 m from a line between two of its side, so that nothing but corners is left. A side is then at most 4 m wide across the rows.
    const wavering = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: 200, maxLength: 200 });
    fc.assert(fc.property(fc.double({ min: 0, max: 180, noNaN: true }), fc.constantFrom(2.5, 5, 20), wavering, (bearing, step, off) => {
      const corner = away(away(middle, bearing + 180, 300), bearing + 270, 100);
      const side = (from: Place, along: number, length: number) =>
        Array.from({ length: Math.floor(length / step) }, (_, i) => away(away(from, along, i * step), along + 90, i === 0 ? 0 : off[(i * 7) % 200]!));
      const corners = [corner, away(corner, bearing, 600), away(away(corner, bearing, 600), bearing + 90, 200), away(corner, bearing + 90, 200)];
      const ring = [...side(corners[0]!, bearing, 600), ...side(corners[1]!, bearing + 90, 200), ...side(corners[2]!, bearing + 180, 600), ...side(corners[3]!, bearing + 270, 200)];
      const { fields, problems } = fieldsFromMap(gpx(track([...ring, ring[0]!])));
      expect(problems).toEqual([]);
      expect(Math.abs(parseFloat(fields[0]!.rowLength!) / 600 - 1)).toBeLessThan(0.06);
      expect(Math.abs(parseFloat(fields[0]!.area) / 12 - 1)).toBeLessThan(0.02);
    }), runs(100));
  });

  it("are not cut by what is narrower than a machine drives round", () => {
    const pole = away(middle, 30, 40);
    expect(rowLength(polygon(rectangle(middle, 90, 400, 200), rectangle(pole, 0, 2, 2)), 90)).toBeCloseTo(400, 0);
  });
});

describe("The distance to the storage", () => {
  it("is the straight line from the middle of the field times the road factor, one way", () => {
    fc.assert(fc.property(fc.double({ min: 0, max: 360, noNaN: true }), fc.integer({ min: 300, max: 20_000 }), fc.double({ min: 1, max: 2, noNaN: true }), (bearing, length, factor) => {
      const map = mapOf(feature(polygon(rectangle(middle, 20, 500, 200))));
      const storageAt = away(middle, bearing, length);
      // Written to the metre; the middle of area and the middle the rectangle was laid about differ by millimetres.
      expect(Math.abs(1000 * parseFloat(only(map, { storageAt, roadFactor: factor }).distance!) - factor * length)).toBeLessThan(0.6);
      expect(Math.abs(1000 * parseFloat(only(map, { storageAt }).distance!) - roadFactor.value * length)).toBeLessThan(0.6);
    }), runs(200));
  });

  it("takes a road factor that its source covers", () => {
    expect(isOutside(roadFactor.value, roadFactor.range)).toBe(false);
  });

  it("is measured from the middle of what is left beside a hole", () => {
    // The western half of a rectangle taken out but for a rim: the middle moves east.
    const outer = rectangle(middle, 90, 400, 200);
    const hole = rectangle(away(middle, 270, 100), 90, 180, 180);
    const east = (80_000 * 0 + 32_400 * 100) / (80_000 - 32_400);
    expect(Math.abs(1000 * parseFloat(only(mapOf(feature(polygon(outer, hole))), { storageAt: away(middle, 90, 5000), roadFactor: 1 }).distance!) - (5000 - east))).toBeLessThan(1);
  });

  it("is left out where nobody says where the storage stands", () => {
    expect(only(mapOf(feature(polygon(rectangle(middle, 0, 300, 200)))))).not.toHaveProperty("distance");
  });

  it("reads a place as screens show it, latitude first", () => {
    expect(readPlace("52.105, 8.285")).toEqual({ lat: 52.105, lon: 8.285 });
    expect(readPlace(" -33.5 -70 ")).toEqual({ lat: -33.5, lon: -70 });
    for (const wrong of ["", "52.105", "north", "98, 8", "8, 198", "1,2,3", "52°N 8°E"]) expect(readPlace(wrong), wrong).toHaveProperty("wrong");
  });
});

describe("What the map itself says of a field", () => {
  const shape = polygon(rectangle(middle, 0, 300, 200));

  it("goes before what its shape says: name, yield, distance and row length in a scenario's words", () => {
    const text = mapOf(feature(shape, { Name: " Low Meadow ", yield: "45 t/ha", distance: "2.4 km", rowLength: "250 m" }));
    expect(only(text, { storageAt: away(middle, 0, 9000) })).toMatchObject({ name: "Low Meadow", yield: "45 t/ha", distance: "2.4 km", rowLength: "250 m" });
  });

  it("is left out and told where a scenario could not use it", () => {
    const { fields, told, problems } = fieldsFromMap(mapOf(feature(shape, { name: "A\nB", yield: 45, distance: "far", rowLength: "250 ha" })));
    expect(problems).toEqual([]);
    expect(fields[0]!.name).toBe("Field 1");
    expect(fields[0]).not.toHaveProperty("yield");
    expect(parseFloat(fields[0]!.rowLength!)).toBeCloseTo(300, 0);
    for (const words of ["features[0].properties.yield is 45: the unit is missing", "properties.distance", "properties.rowLength", "more than one line"]) {
      expect(told.some((sentence) => sentence.includes(words)), words).toBe(true);
    }
  });

  it("may call two fields the same: they are written apart, as a scenario wants it", () => {
    const { fields, told } = fieldsFromMap(mapOf(feature(shape, { name: "Hill" }), feature(polygon(rectangle(away(middle, 90, 800), 0, 300, 200)), { name: "Hill" })));
    expect(fields.map(({ name }) => name)).toEqual(["Hill", "Hill 2"]);
    expect(told.join(" ")).toContain("\"Hill 2\"");
  });
});
