/** The wedge at each stage, who finds room on it, and what is said about a shape that will not do. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bodyOf, capacityOf, checksOf, crowdingNote, hurryNote, layersPerLoad, passesOver, roomFor, shareThatCounts, steepenedRun, toeFor, volumeBehind, wedgeSurface,
} from "../../sim/forage/geometry/index.ts";
import type { Shape } from "../../sim/forage/geometry/index.ts";
import { bunkers, NORTH, shapes, US_PILE } from "./geometry-shapes.ts";

const PILE: Shape = { form: "pile", width: 30, length: 60, height: 3, wedge: 3, sideSlope: 3, meanDepth: null };

describe("The wedge", () => {
  it("of the bunker of 12 m grows to 121.4 m2 on 10.12 m of slope, and keeps that", () => {
    expect(wedgeSurface(NORTH, 184.32 / 4).area).toBeCloseTo(12 * 1.6 * Math.sqrt(10), 10);
    for (const volume of [184.32, 900, 1500]) {
      expect(wedgeSurface(NORTH, volume).area).toBeCloseTo(12 * 3.2 * Math.sqrt(10), 10);
      expect(wedgeSurface(NORTH, volume).length).toBeCloseTo(3.2 * Math.sqrt(10), 10);
      expect(wedgeSurface(NORTH, volume).width).toBeCloseTo(12, 10);
    }
    expect(wedgeSurface(NORTH, 0)).toEqual({ area: 0, length: 0, width: 0, height: 0 });
  });
  it("of a pile narrows from the base of 30 m to a top of 12 m, 21 m on the average", () => {
    const { area, width, length } = wedgeSurface(PILE, 1000);
    expect(width).toBeCloseTo(21, 10);
    expect(area).toBeCloseTo(21 * length, 9);
  });
  it("never gets smaller as forage comes in", () => {
    fc.assert(fc.property(shapes, fc.double({ min: 0, max: 1.2, noNaN: true }), fc.double({ min: 0, max: 0.5, noNaN: true }), (shape, share, more) => {
      const [now, later] = [share, share + more].map((part) => wedgeSurface(shape, part * capacityOf(shape)));
      expect(later!.area).toBeGreaterThanOrEqual(now!.area * (1 - 1e-12));
      expect(later!.length).toBeGreaterThanOrEqual(now!.length * (1 - 1e-12));
    }), { numRuns: 500 });
  });
});

describe("Layers of a load", () => {
  it("are three of 15 cm for 47 m3 on the full wedge of 121.4 m2, and eleven on the bare floor", () => {
    // 47 / (121.43 x 0.15) = 2.58. On the floor the load makes a wedge 3 x sqrt(2 x 47 / 36) = 4.848 m long, 10.2 layers of 0.15 x sqrt(10) along the floor.
    expect(layersPerLoad(NORTH, 600, 47, 0.15)).toBe(3);
    expect(layersPerLoad(NORTH, 0, 47, 0.15)).toBe(11);
  });
  it("are one for a load that just covers the wedge, two for a little more, and one for the smallest load", () => {
    const just = wedgeSurface(NORTH, 600).area * 0.15;
    expect(layersPerLoad(NORTH, 600, just, 0.15)).toBe(1);
    expect(layersPerLoad(NORTH, 600, just * 1.001, 0.15)).toBe(2);
    expect(layersPerLoad(NORTH, 600, 0.1, 0.15)).toBe(1);
  });
  it("are loose volume over surface and layer once the wedge is full, in any storage, and more before", () => {
    fc.assert(fc.property(shapes, fc.double({ min: 5, max: 100, noNaN: true }), fc.double({ min: 0.05, max: 0.4, noNaN: true }), (shape, load, layer) => {
      // A kilometre of it: whatever the height and the slopes, the wedge is full long before.
      const full = volumeBehind(shape, 1000);
      const layers = load / (wedgeSurface(shape, full).area * layer);
      fc.pre(Math.abs(layers - Math.round(layers)) > 1e-6);
      expect(layersPerLoad(shape, full, load, layer)).toBe(Math.max(1, Math.ceil(layers)));
      expect(layersPerLoad(shape, 0, load, layer)).toBeGreaterThanOrEqual(layersPerLoad(shape, full, load, layer));
    }), { numRuns: 500 });
  });
});

describe("Room to work", () => {
  it("is one machine on the first 12 % of what will lie, and two on 12 m of width from then on", () => {
    expect(roomFor(NORTH, 0.119 * 1543.68, 2.5)).toBe(1);
    expect(roomFor(NORTH, 0.121 * 1543.68, 2.5)).toBe(2);
    expect(roomFor(NORTH, 100, 2.5, 892.5)).toBe(1);
    expect(roomFor(NORTH, 110, 2.5, 892.5)).toBe(2);
  });
  it("is 4.5 m for a machine of usual width and 2 m more than its own width for a wider one", () => {
    const width = (m: number) => ({ ...NORTH, width: m });
    expect([8.9, 9, 13.4, 13.5].map((m) => roomFor(width(m), 1000, 2.5))).toEqual([1, 2, 2, 3]);
    expect(roomFor(NORTH, 1000, 4)).toBe(2);
    expect(roomFor(NORTH, 1000, 4.1)).toBe(1);
  });
  it("goes by the mean width of a pile's wedge", () => {
    // Base 130 ft, top 46 ft: 88 ft or 26.8 m, five lanes.
    expect(roomFor(US_PILE, 5000, 2.5)).toBe(5);
  });
  it("is never less than one machine, and one in a storage under twice its width", () => {
    fc.assert(fc.property(shapes, fc.double({ min: 0, max: 1.2, noNaN: true }), fc.double({ min: 1.5, max: 5, noNaN: true }), (shape, share, width) => {
      const room = roomFor(shape, share * capacityOf(shape), width);
      expect(room).toBeGreaterThanOrEqual(1);
      if (shape.width < 2 * width) expect(room).toBe(1);
    }), { numRuns: 500 });
  });
  it("makes three machines on room for two count as two, and says so", () => {
    expect(shareThatCounts(3, 2) * 3).toBeCloseTo(2, 12);
    expect(shareThatCounts(2, 2)).toBe(1);
    expect(crowdingNote(3, 2)).toMatch(/3 tractors .* room for 2.*counts as that of 2/);
    expect(crowdingNote(2, 2)).toBeNull();
  });
});

describe("Passes over a layer", () => {
  it("are 13.7 for two tractors that roll 2.5 m at 3 km/h for 20 min over three layers of 121.4 m2", () => {
    const tractor = { speed: 3 / 3.6, width: 2.5, seconds: 1200 };
    expect(passesOver([tractor, tractor], 12 * 3.2 * Math.sqrt(10), 3)).toBeCloseTo(5000 / 364.29, 2);
  });
});

describe("A wedge in a hurry", () => {
  it("gets as steep as the forage that is put on without moving its foot, by hand", () => {
    // Full height: a triangle of 3.2 m between the old front and the new: 47 = 12 x 3.2^2 x (3 - run) / 2.
    expect(steepenedRun(NORTH, 600, 47)).toBeCloseTo(3 - 94 / (12 * 3.2 ** 2), 10);
    // Still growing, foot at 4.8 m: 56.08 m3 stand 2 x 56.08 / (12 x 4.8) high.
    expect(steepenedRun(NORTH, 46.08, 10)).toBeCloseTo(4.8 / ((2 * 56.08) / (12 * 4.8)), 10);
  });
  it("holds on its old foot, at the slope said, all that was put on", () => {
    fc.assert(fc.property(bunkers, fc.double({ min: 0.02, max: 1, noNaN: true }), fc.double({ min: 0, max: 0.3, noNaN: true }), (shape, share, more) => {
      const [volume, added] = [share * capacityOf(shape), more * capacityOf(shape)];
      const run = steepenedRun(shape, volume, added);
      expect(run).toBeLessThanOrEqual(shape.wedge! * (1 + 1e-12));
      const held = volumeBehind({ ...shape, wedge: run }, toeFor(shape, volume));
      if (run > 0) expect(Math.abs(held - volume - added)).toBeLessThanOrEqual(1e-9 * (volume + added));
      else expect(held).toBeLessThanOrEqual((volume + added) * (1 + 1e-9));
    }), { numRuns: 500 });
  });
  it("is named when it gets steeper than 1:3, and not while there is slope to spare", () => {
    expect(hurryNote(NORTH, 600, 47)).toMatch(/1:3 becomes one of 1:2\.2/);
    expect(hurryNote({ ...NORTH, wedge: 5 }, 900, 47)).toBeNull();
    expect(hurryNote(NORTH, 600, 0)).toBeNull();
    expect(hurryNote(NORTH, 46.08, 1000)).toMatch(/upright/);
    expect(hurryNote(NORTH, 0, 47)).toBeNull();
  });
});

describe("A shape that will not do", () => {
  const details = (shape: Shape, widest = 2.5, load = 20) => checksOf(shape, widest, load).map((check) => check.detail);
  it("does not complain of the worked bunker and pile", () => {
    expect(checksOf(NORTH, 2.5, 40)).toEqual([]);
    expect(checksOf(PILE, 2.5, 40)).toEqual([]);
  });
  it("is refused with a slope, a width, a length or a height of nothing", () => {
    for (const [key, shape] of [
      ["wedge", { ...NORTH, wedge: 0 }], ["sideSlope", { ...PILE, sideSlope: 0 }], ["width", { ...NORTH, width: 0 }], ["length", { ...NORTH, length: -3 }], ["height", { ...PILE, height: NaN }],
    ] as const) {
      const checks = checksOf(shape, 2.5);
      expect(checks.map((check) => [check.key, check.refuses])).toEqual([[key, true]]);
      expect(checks[0]!.detail).toMatch(/^The .*\.$/);
    }
  });
  it("is refused as a pile whose base comes to a ridge below its height, and told at what height", () => {
    expect(details({ ...PILE, width: 15 })).toEqual(["The height is 3 m: a base 15 m wide with sides of 1:3 comes to a ridge at 2.5 m; a lower pile or a wider base would do."]);
  });
  it("is refused when it holds less than one load", () => {
    const [check] = checksOf({ ...NORTH, length: 3 }, 2.5, 40).filter((each) => each.refuses);
    expect(check!.detail).toMatch(/holds 18 m3 and one load packs to 40 m3/);
  });
  it("is told how high it comes when it is too short for its slopes", () => {
    expect(details({ ...NORTH, length: 6 }).join()).toMatch(/The length is 6 m.*take 9\.6 m.*no more than 2 m/);
    expect(details({ ...PILE, length: 12 }).join()).toMatch(/take 18 m.*no more than 2 m/);
  });
  it("is warned of slopes steeper than 1:3: wedge, sides, crown", () => {
    expect(checksOf({ ...NORTH, wedge: 2.5 }, 2.5).map((check) => [check.key, check.refuses])).toEqual([["wedge", false]]);
    expect(checksOf({ ...PILE, sideSlope: 2 }, 2.5).map((check) => check.key)).toEqual(["sideSlope"]);
    expect(checksOf({ ...NORTH, crown: 2.1 }, 2.5).map((check) => check.key)).toEqual(["crown"]);
    expect(checksOf({ ...NORTH, crown: 2 }, 2.5)).toEqual([]);
  });
  it("is refused as a pile with a crown", () => {
    expect(checksOf({ ...PILE, crown: 1 }, 2.5).map((check) => [check.key, check.refuses])).toEqual([["crown", true]]);
  });
  it("is warned when narrower than twice the widest tractor, at the floor or on a pile's top", () => {
    expect(checksOf({ ...NORTH, width: 4.9 }, 2.5).map((check) => check.key)).toEqual(["width"]);
    expect(checksOf({ ...NORTH, width: 5 }, 2.5)).toEqual([]);
    expect(checksOf({ ...PILE, width: 22 }, 2.5).map((check) => check.key)).toEqual(["height"]);
  });
  it("never lacks a sentence where the forage cannot come to the planned height, for any shape", () => {
    fc.assert(fc.property(shapes, (shape) => {
      const planned = shape.height + (shape.crown ?? 0);
      const reaches = bodyOf(shape, capacityOf(shape)).top >= planned * (1 - 1e-9);
      if (!reaches) expect(checksOf(shape, 0).some((check) => check.key === "length" || check.key === "height")).toBe(true);
    }), { numRuns: 500 });
  });
});
