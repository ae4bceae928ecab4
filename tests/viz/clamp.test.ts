import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bodyOf, volumeOfSection, type Shape } from "../../sim/forage/geometry/index.ts";
import { frontOf, layClamp, outlineOf, thicknessOf } from "../../viz/clamp.ts";

const size = { length: fc.integer({ min: 20, max: 80 }), wedge: fc.integer({ min: 3, max: 5 }), height: fc.integer({ min: 2, max: 4 }), meanDepth: fc.constant(null) };
const shape: fc.Arbitrary<Shape> = fc.oneof(
  fc.record({ ...size, form: fc.constant("bunker" as const), width: fc.integer({ min: 8, max: 30 }), sideSlope: fc.constant(0) }),
  fc.record({ ...size, form: fc.constant("pile" as const), width: fc.integer({ min: 34, max: 50 }), sideSlope: fc.constantFrom(3, 4) }),
);
/** Lifts from a handful to a good part of what the storage holds. */
const laid = fc.tuple(shape, fc.array(fc.double({ min: 2, max: 40, noNaN: true }), { minLength: 1, maxLength: 60 })).map(([s, lifts]) => ({ shape: s, lifts }));

describe("the long section of a clamp", () => {
  it("draws every lift true to its volume, and a part of a lift with its part of it", () => {
    fc.assert(fc.property(laid, fc.double({ min: 0.01, max: 1, noNaN: true }), ({ shape: s, lifts }, share) => {
      const layout = layClamp(s, lifts);
      lifts.forEach((volume, i) => {
        expect(volumeOfSection(s, outlineOf(layout, i))).toBeCloseTo(volume, 6);
        expect(volumeOfSection(s, outlineOf(layout, i, share))).toBeCloseTo(volume * share, 6);
      });
    }));
  });

  it("shows the body that the engine reckons with, after every lift: the same toe, the same top, no steeper than the wedge", () => {
    fc.assert(fc.property(laid, ({ shape: s, lifts }) => {
      const layout = layClamp(s, lifts);
      let volume = 0;
      lifts.forEach((lift, i) => {
        volume += lift;
        const body = bodyOf(s, volume);
        const [upper, toe] = frontOf(layout, i + 1, 0)!;
        expect(toe[0]).toBeCloseTo(body.toe, 6);
        expect(upper[1]).toBeCloseTo(body.top, 6);
        expect((toe[0] - upper[0]) / upper[1]).toBeCloseTo(Math.max(s.wedge!, s.sideSlope), 6);
      });
      expect(layout.body).toEqual(bodyOf(s, volume));
    }));
  });

  it("has no front before anything is laid, and one as soon as a part of the first lift is", () => {
    const layout = layClamp({ form: "bunker", length: 45, width: 12, height: 3, wedge: 3, sideSlope: 0, meanDepth: null }, [10]);
    expect(frontOf(layout, 0, 0)).toBeNull();
    expect(frontOf(layout, 0, 0.5)![1][0]).toBeCloseTo(bodyOf(layout.shape, 5).toe, 9);
  });

  it("agrees with its own hand calculation: 12 m wide, 3 m high, 1:3, the first wedge takes 162 m3 at the back, and 893 m3 reach out to 29.3 m", () => {
    // The first wedge: 12 x 3 x 9 / 2 = 162 m3 with its toe at 9 m. Then 36 m3 a metre: 9 + (893 - 162) / 36 = 29.306 m.
    const bunker: Shape = { form: "bunker", length: 45, width: 12, height: 3, wedge: 3, sideSlope: 0, meanDepth: null };
    const layout = layClamp(bunker, [162, 731]);
    expect(frontOf(layout, 1, 0)![1][0]).toBeCloseTo(9, 9);
    expect(frontOf(layout, 1, 0)![0][1]).toBeCloseTo(3, 9);
    expect(layout.body.toe).toBeCloseTo(29.306, 3);
  });

  it("draws a lift as thick as it lies across its slope, at any scale, and nothing thick before anything lies", () => {
    // On the slope of 1:3, 3 m high and 9 m long, lifts of 36 m3 follow each other by 1 m: 1 m x sin(atan(1/3)) thick, after a wedge of as much area in as many lifts.
    const bunker: Shape = { form: "bunker", length: 45, width: 12, height: 3, wedge: 3, sideSlope: 0, meanDepth: null };
    const layout = layClamp(bunker, Array.from({ length: 20 }, () => 36));
    expect(thicknessOf(layout, 20, 1, 1)).toBeCloseTo(3 / Math.hypot(3, 9), 9);
    // Drawn 5 px a metre lengthwise and four times that upwards: 5 px x sin(atan(4/3)) = 4 px.
    expect(thicknessOf(layout, 20, 5, 20)).toBeCloseTo(4, 9);
    expect(thicknessOf(layout, 0, 5, 20)).toBe(0);
  });
});
