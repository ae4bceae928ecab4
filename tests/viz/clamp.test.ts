import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { frontOf, heapOf, layClamp, outlineOf, type Point, type Section } from "../../viz/clamp.ts";

/** Area of a closed outline, m2, by the shoelace formula. */
const areaOf = (points: readonly Point[]): number => Math.abs(points.reduce((sum, [x, z], i) => {
  const [nextX, nextZ] = points[(i + 1) % points.length]!;
  return sum + x * nextZ - nextX * z;
}, 0)) / 2;

const section: fc.Arbitrary<Section> = fc.record({
  length: fc.integer({ min: 20, max: 80 }), width: fc.integer({ min: 8, max: 30 }), wedge: fc.integer({ min: 3, max: 5 }), back: fc.constantFrom(0, 3, 4),
});
/** Lifts that fit: together at most half of what the longest wedge would hold. */
const laid = section.chain((s) => fc.array(fc.double({ min: 0.2, max: 1, noNaN: true }), { minLength: 1, maxLength: 60 })
  .map((parts) => ({ section: s, lifts: parts.map((part) => (part / parts.length) * (s.width * s.length ** 2) / (4 * (s.wedge + s.back))) })));

describe("the long section of a clamp", () => {
  it("draws every lift with an area true to its volume, and a part of a lift with its part of it", () => {
    fc.assert(fc.property(laid, fc.double({ min: 0, max: 1, noNaN: true }), ({ section: s, lifts }, share) => {
      const layout = layClamp(s, lifts);
      lifts.forEach((volume, i) => {
        expect(areaOf(outlineOf(layout, i)) * s.width).toBeCloseTo(volume, 6);
        expect(areaOf(outlineOf(layout, i, share)) * s.width).toBeCloseTo(volume * share, 6);
      });
    }));
  });

  it("stacks lifts without gap or overlap: together they are the heap", () => {
    fc.assert(fc.property(laid, ({ section: s, lifts }) => {
      const layout = layClamp(s, lifts);
      const together = lifts.reduce((sum, _, i) => sum + areaOf(outlineOf(layout, i)), 0);
      expect(areaOf(heapOf(layout, lifts.length, 0))).toBeCloseTo(together, 6);
      expect(areaOf(heapOf(layout, lifts.length - 1, 1))).toBeCloseTo(together, 6);
    }));
  });

  it("fills the length with the whole day, no steeper than the wedge and no higher than its level top", () => {
    fc.assert(fc.property(laid, ({ section: s, lifts }) => {
      const layout = layClamp(s, lifts);
      const [, toe] = frontOf(layout, lifts.length, 0);
      expect(toe[0]).toBeCloseTo(s.length, 6);
      lifts.forEach((_, i) => {
        const [upper, lower] = frontOf(layout, i + 1, 0);
        if (upper[1] > 1e-6) expect((lower[0] - upper[0]) / upper[1]).toBeCloseTo(s.wedge, 6);
        for (const [x, z] of outlineOf(layout, i)) {
          expect(x).toBeGreaterThan(-1e-9);
          expect(z).toBeLessThan(layout.top + 1e-9);
        }
      });
    }));
  });

  it("ends level with its own hand calculation: 12 m wide, 45 m long, 893 m3 at 1:3 rise to 1.757 m", () => {
    // 893 / 12 = 74.417 m2 = 45 h - 1.5 h2; at h = 1.7566 m that is 79.045 - 4.628.
    expect(layClamp({ length: 45, width: 12, wedge: 3, back: 0 }, [400, 493]).top).toBeCloseTo(1.7566, 3);
  });
});
