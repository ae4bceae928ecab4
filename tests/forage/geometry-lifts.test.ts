/** Where lifts lie, how deep, and which of them worry: worked by hand, and for any storage and any lifts. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { capacityOf, gradientShortfall, layoutOf, loosestPart, slicesOf, toeFor, volumeOfSection } from "../../sim/forage/geometry/index.ts";
import type { Polygon, Shape } from "../../sim/forage/geometry/index.ts";
import { depthProfile, measuredProfile } from "../../sim/forage/profile.ts";
import { CROWNED, NORTH, shapes } from "./geometry-shapes.ts";

/** Even-odd rule. */
function contains(polygon: Polygon, x: number, y: number): boolean {
  let inside = false;
  polygon.forEach(([x0, y0], i) => {
    const [x1, y1] = polygon[(i + 1) % polygon.length]!;
    if (y0 > y !== y1 > y && x < x0 + ((x1 - x0) * (y - y0)) / (y1 - y0)) inside = !inside;
  });
  return inside;
}

/** Lifts of a day as shares of the capacity, up to a third more than fits. */
const days = fc.tuple(shapes, fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: 1, maxLength: 60 }), fc.double({ min: 0.01, max: 1.3, noNaN: true }))
  .map(([shape, parts, share]) => {
    const whole = parts.reduce((sum, part) => sum + part, 0);
    return { shape, lifts: parts.map((part) => (part / whole) * share * capacityOf(shape)) };
  });

describe("Lifts in the long section", () => {
  it("lie on the wedge as it grows and then moves on, by hand in the bunker of 12 m", () => {
    // A quarter of the first wedge, the rest of it, and 3 m of toe at full height: 12 x 3.2 x 3 m3.
    expect(layoutOf(NORTH, [46.08, 138.24, 115.2]).map(([polygon]) => polygon!.map((point) => point.map((m) => Number(m.toFixed(9)))))).toEqual([
      [[0, 0], [4.8, 0], [0, 1.6]],
      [[4.8, 0], [9.6, 0], [0, 3.2], [0, 1.6]],
      [[9.6, 0], [12.6, 0], [3, 3.2], [0, 3.2]],
    ]);
  });
  it("reach over the edge where back wall and level top meet, when one lift spans both stages", () => {
    const [, [polygon]] = layoutOf(NORTH, [46.08, 138.24 + 115.2]) as [Polygon[], Polygon[]];
    expect(polygon!.map((point) => point.map((m) => Number(m.toFixed(9))))).toEqual([[4.8, 0], [12.6, 0], [3, 3.2], [0, 3.2], [0, 1.6]]);
  });
  it("follow the back up to the wall and over the crown", () => {
    const [[polygon]] = layoutOf(CROWNED, [capacityOf(CROWNED)]) as [Polygon[]];
    expect(polygon!.map((point) => point.map((m) => Number(m.toFixed(6))))).toEqual([[0, 0], [45, 0], [33, 4], [6, 4], [0, 3]]);
  });
  it("of a pile are worth the width at each height: 2 m of toe on 30 m of base, 3 m high, are 2 x (90 - 27) = 126 m3", () => {
    const pile: Shape = { form: "pile", width: 30, length: 60, height: 3, wedge: 3, sideSlope: 3, meanDepth: null };
    const polygon: Polygon = [[20, 0], [22, 0], [13, 3], [11, 3]];
    expect(volumeOfSection(pile, polygon)).toBeCloseTo(126, 10);
    expect(volumeOfSection({ ...pile, form: "bunker", sideSlope: 0 }, polygon)).toBeCloseTo(2 * 3 * 30, 10);
  });
  it("keep every lift's volume to 1e-9, in any storage, also past its end", () => {
    fc.assert(fc.property(days, ({ shape, lifts }) => {
      layoutOf(shape, lifts).forEach((polygons, i) => {
        const volume = polygons.reduce((sum, polygon) => sum + volumeOfSection(shape, polygon), 0);
        expect(Math.abs(volume - lifts[i]!)).toBeLessThanOrEqual(1e-9 * lifts[i]!);
      });
    }), { numRuns: 1000 });
  });
  it("cover the section once: every spot of the forage lies in one lift, in the order laid, and none outside", () => {
    const spots = fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })), { minLength: 20, maxLength: 40 });
    fc.assert(fc.property(days, spots, ({ shape, lifts }, places) => {
      const layout = layoutOf(shape, lifts);
      const end = toeFor(shape, lifts.reduce((sum, lift) => sum + lift, 0));
      const front = Math.max(shape.wedge ?? 0, shape.form === "pile" ? shape.sideSlope : 0);
      let reached = 0;
      const toes = lifts.map((lift) => toeFor(shape, (reached += lift)));
      const crown = shape.crown ?? 0;
      for (const [u, v] of places) {
        const [x, y] = [u * end * 1.05, v * (shape.height + crown)];
        const back = shape.form === "pile" ? shape.sideSlope * y : crown > 0 && y > shape.height ? (y - shape.height) * (shape.width / (2 * crown)) : 0;
        const foot = x + front * y;
        // Too close to an edge to say on which side of it the spot lies.
        if (toes.some((toe) => Math.abs(toe - foot) < 1e-9) || Math.abs(x - back) < 1e-9) continue;
        const expected = x > back ? toes.findIndex((toe) => foot < toe) : -1;
        const found = layout.flatMap((polygons, i) => (polygons.some((polygon) => contains(polygon, x, y)) ? [i] : []));
        expect(found).toEqual(expected < 0 ? [] : [expected]);
      }
    }), { numRuns: 500 });
  });
  it("have no outline when they have no volume, and leave the others where they are", () => {
    const [first, none, second] = layoutOf(NORTH, [100, 0, 50]);
    expect(none).toEqual([]);
    expect([first, second]).toEqual(layoutOf(NORTH, [100, 50]));
  });
});

describe("Depth below the finished surface", () => {
  it("is shared out over slices that make up the whole volume, the deepest ending at the floor", () => {
    fc.assert(fc.property(shapes, fc.double({ min: 0.01, max: 1.2, noNaN: true }), (shape, share) => {
      const volume = share * capacityOf(shape);
      const slices = slicesOf(shape, volume, 9);
      expect(Math.abs(slices.reduce((sum, slice) => sum + slice.volume, 0) / volume - 1)).toBeLessThan(1e-10);
      expect(slices.every((slice, i) => slice.volume >= 0 && (i === 0 || slice.depth > slices[i - 1]!.depth))).toBe(true);
    }), { numRuns: 300 });
  });
  it("gives the mean depth of a grain that the columns of the section give, by hand", () => {
    // Columns of depth D carry D^2 / 2: 35.4 m of 3.2 m, and a front falling from 3.2 m to nothing over 9.6 m.
    const byColumns = 12 * ((35.4 * 3.2 ** 2) / 2 + (9.6 * 3.2 ** 2) / 6);
    // Mid-depths of slices d thick on a length that shortens by 3 m a metre are too much by 12 x 3 d^3 / 12 a slice.
    const thick = 3.2 / 32;
    const bySlices = slicesOf(NORTH, capacityOf(NORTH), 32).reduce((sum, slice) => sum + slice.depth * slice.volume, 0);
    expect(bySlices - byColumns).toBeCloseTo(32 * 3 * thick ** 3, 8);
  });
  it("has more forage near the surface than near the floor of a pile, and slices ready for the depth profile", () => {
    const pile: Shape = { form: "pile", width: 30, length: 60, height: 3, wedge: 3, sideSlope: 3, meanDepth: null };
    const slices = slicesOf(pile, capacityOf(pile));
    expect(slices.every((slice, i) => i === 0 || slice.volume < slices[i - 1]!.volume)).toBe(true);
    const densities = depthProfile(240, slices);
    const dry = slices.reduce((sum, slice, i) => sum + slice.volume * densities[i]!, 0);
    expect(dry / capacityOf(pile)).toBeCloseTo(240, 8);
  });
  it("is drawn with a bottom 23 % denser than the top in a bunker 3.2 m deep, and has the measured 58 % beside it", () => {
    // 2 x 2.7 m against 2 x 0.5 m: (0.818 + 0.044619 x 5.4) / (0.818 + 0.044619 x 1)
    const shortfall = gradientShortfall(NORTH, 900)!;
    expect(shortfall.shown).toBeCloseTo(1.058945 / 0.862619, 5);
    expect(shortfall.measured).toBe(measuredProfile.bottomOverTop.value);
  });
  it("has no gradient to compare where the forage is no deeper than a metre", () => {
    expect(gradientShortfall(NORTH, 10)).toBeNull();
    expect(slicesOf(NORTH, 0)).toEqual([]);
  });
});

describe("The lifts that worry", () => {
  const lifts = [{ dryMass: 90, density: 200 }, { dryMass: 10, density: 100 }];
  it("give the density of the loosest tenth, or fifth, as its dry matter over its volume", () => {
    expect(loosestPart(lifts)).toBeCloseTo(100, 9);
    expect(loosestPart(lifts, 0.2)).toBeCloseTo(20 / (10 / 100 + 10 / 200), 9);
  });
  it("are never denser than the whole, and the whole is dry matter over volume", () => {
    const some = fc.array(fc.record({ dryMass: fc.double({ min: 1, max: 1e4, noNaN: true }), density: fc.double({ min: 100, max: 400, noNaN: true }) }), { minLength: 1 });
    fc.assert(fc.property(some, (laid) => {
      const dry = laid.reduce((sum, lift) => sum + lift.dryMass, 0);
      const volume = laid.reduce((sum, lift) => sum + lift.dryMass / lift.density, 0);
      expect(loosestPart(laid, 1)).toBeCloseTo(dry / volume, 6);
      expect(loosestPart(laid)).toBeLessThanOrEqual((dry / volume) * (1 + 1e-9));
      expect(loosestPart(laid)).toBeGreaterThanOrEqual(Math.min(...laid.map((lift) => lift.density)) * (1 - 1e-9));
    }), { numRuns: 300 });
  });
});
