/** What a storage holds and how deep it lies: worked by hand, and for any shape. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  baseUnderSlopes, bodyOf, capacityOf, coverFor, footprintOf, layersPerLoad, layoutOf, meanDepthOf, surfaceOf, toeFor, volumeBehind, wedgeSurface, weightsFor,
} from "../../sim/forage/geometry/index.ts";
import type { Shape } from "../../sim/forage/geometry/index.ts";
import { FOOT } from "../../sim/forage/us.ts";
import { bunkers, CROWNED, filled, NORTH, piles, shapes, US_BUNKER, US_PILE } from "./geometry-shapes.ts";

/** Equal to within 1e-12 of the size of what is compared. */
function expectEqual(actual: number, expected: number, tolerance = 1e-12): void {
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance * Math.max(Math.abs(expected), 1e-3));
}

describe("A bunker of 12 x 45 m with walls of 3.2 m and a wedge of 1:3, by hand", () => {
  it("holds the box less the wedge-shaped gap above its front slope", () => {
    expectEqual(capacityOf(NORTH), 12 * 45 * 3.2 - (12 * 9.6 * 3.2) / 2);
    expectEqual(capacityOf(NORTH), 1543.68);
  });
  it("has its first wedge full at 12 x 9.6 x 3.2 / 2 = 184.32 m3", () => {
    const { toe, top, level } = bodyOf(NORTH, 184.32);
    expectEqual(toe, 9.6);
    expectEqual(top, 3.2);
    expectEqual(level, 0);
  });
  it("lies as a triangle while the wedge grows: a quarter of the first wedge is half as high and half as long", () => {
    const { toe, top, level } = bodyOf(NORTH, 184.32 / 4);
    expectEqual(toe, 4.8);
    expectEqual(top, 1.6);
    expect(level).toBe(0);
    expectEqual(meanDepthOf(NORTH, 184.32 / 4), 0.8);
  });
  it("takes 892.5 m3 on 28.04 m of floor, 2.652 m deep on the average, not 1.65 m over the whole floor", () => {
    // 892.5 / 12 = 74.375 m2 of long section; with the gap of 3 x 3.2^2 / 2 = 15.36 m2 that is a rectangle 3.2 m high and 28.0421875 m long.
    const { toe, top, level, topWidth } = bodyOf(NORTH, 892.5);
    expectEqual(toe, 28.0421875);
    expectEqual(level, 28.0421875 - 9.6);
    expect([top, topWidth]).toEqual([3.2, 12]);
    expectEqual(footprintOf(NORTH, 892.5), 336.50625);
    expectEqual(meanDepthOf(NORTH, 892.5), 892.5 / 336.50625);
    expectEqual(baseUnderSlopes(NORTH, 892.5), 9.6 / 28.0421875);
  });
  it("shows the sky its level top and its front slope, not its walls", () => {
    const level = 12 * 18.4421875;
    const front = 12 * 3.2 * Math.sqrt(10);
    expectEqual(surfaceOf(NORTH, 892.5), level + front);
  });
  it("takes its user's mean depth when one is given", () => {
    expect(meanDepthOf({ ...NORTH, meanDepth: 2.1 }, 892.5)).toBe(2.1);
  });
  it("holds the whole box when its front is closed by boards", () => {
    const { wedge: _, ...closed } = NORTH;
    expectEqual(capacityOf(closed), 1728);
    expectEqual(surfaceOf(closed, 1728), 12 * 45);
    expectEqual(meanDepthOf(closed, 100), 3.2);
  });
  it("lies on past its end at the same height when more goes in than fits, and is no deeper on the average than full", () => {
    const { toe, top } = bodyOf(NORTH, 1543.68 + 12 * 3.2 * 5);
    expectEqual(toe, 50);
    expect(top).toBe(3.2);
    expect(meanDepthOf(NORTH, 2000)).toBe(meanDepthOf(NORTH, capacityOf(NORTH)));
  });
  it("comes to no more than 2 m when it is only 6 m long, and holds the triangle under that", () => {
    const short = { ...NORTH, length: 6 };
    expectEqual(capacityOf(short), (12 * 6 * 2) / 2);
    expectEqual(bodyOf(short, capacityOf(short)).top, 2);
  });
});

describe("A bunker rounded up in the middle, by hand", () => {
  it("holds half the rise times its width more for each metre of length, less what the slopes in front and at the back take", () => {
    // Below the wall 12 (45 x 3 - 3 x 3^2 / 2) = 1458 m3. Above, at height h over the wall, it is 12 (1 - h) wide and 45 - 9 - 3 h - 6 h long:
    // 12 x integral of (1 - h)(36 - 9 h) = 12 (36 - 22.5 + 3) = 198.
    expectEqual(capacityOf(CROWNED), 1458 + 198);
  });
  it("is covered over two gable slopes, the slope at the back and the longer front", () => {
    const front = 12 * 3 * Math.sqrt(10) + 6 * 1 * Math.sqrt(10);
    const sides = 2 * ((36 + 27) / 2) * Math.sqrt(1 + 6 ** 2);
    const back = 6 * Math.sqrt(1 + 6 ** 2);
    expectEqual(surfaceOf(CROWNED, capacityOf(CROWNED)), front + sides + back);
  });
});

describe("US sizes, by hand in feet", () => {
  it("a bunker of 60 x 240 x 12 ft holds 172,800 - 12,960 = 159,840 ft3, on the average 11.1 ft deep", () => {
    expectEqual(capacityOf(US_BUNKER) / FOOT ** 3, 159_840);
    expectEqual(meanDepthOf(US_BUNKER, capacityOf(US_BUNKER)) / FOOT, 11.1);
  });
  it("a pile of 130 x 300 ft, 14 ft high with slopes of 1:3, holds 326,088 ft3 by the prismoidal rule", () => {
    // top 46 x 216 ft, middle 88 x 258 ft
    expectEqual(capacityOf(US_PILE) / FOOT ** 3, (14 / 6) * (130 * 300 + 4 * 88 * 258 + 46 * 216));
    expectEqual(capacityOf(US_PILE) / FOOT ** 3, 326_088);
  });
  it("that pile is 8.36 ft deep on the average, and three quarters of its base lie under slopes", () => {
    expectEqual(meanDepthOf(US_PILE, capacityOf(US_PILE)) / FOOT, 326_088 / 39_000);
    expectEqual(baseUnderSlopes(US_PILE, capacityOf(US_PILE)), 1 - (46 * 216) / 39_000);
    expect(baseUnderSlopes(US_PILE, capacityOf(US_PILE))).toBeCloseTo(0.745, 3);
  });
  it("its slopes are longer than they look from above by sqrt(10) / 3 on every side", () => {
    // Seen from above, slopes cover 39,000 - 46 x 216 ft2.
    expectEqual(surfaceOf(US_PILE, capacityOf(US_PILE)) / FOOT ** 2, 46 * 216 + (39_000 - 46 * 216) * (Math.sqrt(10) / 3));
  });
});

describe("Film and weights, by hand", () => {
  it("lays five sheets of 10 m over a way of 45.5 m, with a metre over each joint and all round", () => {
    const along = 45 - 9.6 + 3.2 * Math.sqrt(10);
    // 35.4 + 10.12 m; sheets reach 10, 19, 28, 37, 46 m.
    expect(along).toBeCloseTo(45.52, 2);
    const { film, sheets, seams } = coverFor(NORTH, capacityOf(NORTH), { overlap: 1, sheet: 10 });
    expect(sheets).toBe(5);
    expectEqual(seams, 4 * 12 + 2 * along + 2 * 12);
    expectEqual(film, 12 * along + seams);
  });
  it("is the surface itself with one sheet and no overlap", () => {
    expectEqual(coverFor(NORTH, 500, { overlap: 0, sheet: 100 }).film, surfaceOf(NORTH, 500));
  });
  it("refuses a sheet no wider than its overlap", () => {
    expect(() => coverFor(NORTH, 500, { overlap: 2, sheet: 2 })).toThrow(/wider sheet/);
  });
  it("counts whole tyres on the surface, or whole bags on the seams, and none before anything lies", () => {
    const seams = coverFor(NORTH, 500).seams;
    expect(weightsFor(NORTH, 500)).toEqual({ tyres: Math.ceil(surfaceOf(NORTH, 500) * 2.4), bags: Math.ceil(seams / 1.2) });
    expect(weightsFor(NORTH, 0)).toEqual({ tyres: 0, bags: 0 });
  });
});

describe("Any storage", () => {
  it("has a toe whose volume is the one asked for, and a volume whose toe is", () => {
    fc.assert(fc.property(filled, ([shape, share]) => {
      const volume = share * capacityOf(shape);
      const toe = toeFor(shape, volume);
      expectEqual(volumeBehind(shape, toe), volume, 1e-11);
      expectEqual(toeFor(shape, volumeBehind(shape, toe)), toe, 1e-11);
    }), { numRuns: 1000 });
  });
  it("holds more the further its toe, is never deeper than its walls on the average, and never shallower for more forage", () => {
    fc.assert(fc.property(shapes, fc.double({ min: 1e-9, max: 1.3, noNaN: true }), fc.double({ min: 0.001, max: 0.5, noNaN: true }), (shape, share, more) => {
      const [less, richer] = [share, share + more].map((part) => part * capacityOf(shape)) as [number, number];
      expect(toeFor(shape, richer)).toBeGreaterThan(toeFor(shape, less));
      expect(volumeBehind(shape, shape.length * (share + more))).toBeGreaterThan(volumeBehind(shape, shape.length * share));
      expect(meanDepthOf(shape, richer)).toBeGreaterThanOrEqual(meanDepthOf(shape, less) * (1 - 1e-12));
      expect(meanDepthOf(shape, richer)).toBeLessThanOrEqual((shape.height + (shape.crown ?? 0)) * (1 + 1e-12));
      expect(surfaceOf(shape, richer)).toBeGreaterThan(surfaceOf(shape, less));
      expect(coverFor(shape, richer).film).toBeGreaterThan(coverFor(shape, less).film);
    }), { numRuns: 1000 });
  });
  it("is empty at nothing and ends at its length when full", () => {
    fc.assert(fc.property(shapes, (shape) => {
      expect(bodyOf(shape, 0)).toEqual({ volume: 0, toe: 0, top: 0, level: 0, topWidth: 0 });
      expect([meanDepthOf(shape, 0), surfaceOf(shape, 0), footprintOf(shape, 0), baseUnderSlopes(shape, 0)]).toEqual([0, 0, 0, 0]);
      expectEqual(toeFor(shape, capacityOf(shape)), shape.length, 1e-11);
    }), { numRuns: 500 });
  });
  it("has a mean depth of volume over footprint, and covers at least what its footprint's roof would be", () => {
    fc.assert(fc.property(filled, ([shape, share]) => {
      const volume = Math.min(1, share) * capacityOf(shape);
      expectEqual(meanDepthOf(shape, volume) * footprintOf(shape, volume), volume, 1e-11);
      expect(surfaceOf(shape, volume)).toBeGreaterThanOrEqual(footprintOf(shape, volume) * (1 - 1e-12));
      const under = baseUnderSlopes(shape, volume);
      expect(under).toBeGreaterThanOrEqual(-1e-12);
      expect(under).toBeLessThanOrEqual(1);
    }), { numRuns: 500 });
  });
  it("shows the sky its level top and its wedge and nothing else, as a level bunker", () => {
    fc.assert(fc.property(bunkers, fc.double({ min: 0.001, max: 1, noNaN: true }), ({ crown: _, ...shape }, share) => {
      const volume = share * capacityOf(shape);
      const { level } = bodyOf(shape, volume);
      expectEqual(surfaceOf(shape, volume), shape.width * level + wedgeSurface(shape, volume).area, 1e-9);
    }), { numRuns: 300 });
  });
  it("agrees with the prismoidal rule as a pile with one slope all round", () => {
    fc.assert(fc.property(piles, (pile) => {
      const shape = { ...pile, wedge: pile.sideSlope, length: pile.length + 2 * pile.sideSlope * pile.height };
      const area = (y: number) => (shape.width - 2 * shape.sideSlope * y) * (shape.length - 2 * shape.sideSlope * y);
      expectEqual(capacityOf(shape), (shape.height / 6) * (area(0) + 4 * area(shape.height / 2) + area(shape.height)), 1e-11);
    }), { numRuns: 300 });
  });
  it("measures the same as a pile with upright sides and as a bunker", () => {
    fc.assert(fc.property(bunkers, fc.double({ min: 0.001, max: 1.2, noNaN: true }), ({ crown: _, ...bunker }, share) => {
      const pile: Shape = { ...bunker, form: "pile" };
      const volume = share * capacityOf(bunker);
      expect(capacityOf(pile)).toBe(capacityOf(bunker));
      for (const measure of [toeFor, bodyOf, meanDepthOf, footprintOf, surfaceOf, coverFor, baseUnderSlopes, wedgeSurface]) {
        expect(measure(pile, volume)).toEqual(measure(bunker, volume));
      }
      expect(layersPerLoad(pile, volume, 40, 0.15)).toBe(layersPerLoad(bunker, volume, 40, 0.15));
      expect(layoutOf(pile, [volume / 2, volume / 2])).toEqual(layoutOf(bunker, [volume / 2, volume / 2]));
    }), { numRuns: 300 });
  });
  it("has about the volume of thin slabs of width times length, as a pile with other slopes in front than behind", () => {
    const shape: Shape = { form: "pile", width: 30, length: 60, height: 4, wedge: 5, sideSlope: 2.5, meanDepth: null };
    // 20,000 slabs by the midpoint rule: the error is step^2 / 24 x height x second derivative of (30 - 5 y)(60 - 7.5 y), which is 75.
    const step = 4 / 20_000;
    let sum = 0;
    for (let i = 0; i < 20_000; i++) {
      const y = (i + 0.5) * step;
      sum += (30 - 5 * y) * (60 - 7.5 * y) * step;
    }
    expect(Math.abs(capacityOf(shape) - sum)).toBeLessThan((step ** 2 / 24) * 4 * 75 * 1.01 + 1e-8);
  });
});
