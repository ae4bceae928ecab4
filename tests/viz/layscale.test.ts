import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { layScale } from "../../viz/beside/layscale.ts";
import { runs } from "../kernel/runs.ts";

const size = fc.record({ width: fc.double({ min: 4, max: 60, noNaN: true }), length: fc.double({ min: 10, max: 150, noNaN: true }), height: fc.double({ min: 1, max: 6, noNaN: true }) });

describe("storages drawn to one scale", () => {
  it("have one metre for all of them, stay on the sheet and clear of each other", () => {
    fc.assert(fc.property(fc.array(size, { minLength: 1, maxLength: 6 }), fc.integer({ min: 260, max: 1800 }), (sizes, width) => {
      const { places, height, times } = layScale(width, sizes);
      expect(new Set(places.map(({ m }) => m)).size).toBe(1);
      let below = 0;
      places.forEach(({ m, up, title, across, along }, i) => {
        const { width: wide, length, height: high } = sizes[i]!;
        expect(up).toBeCloseTo(m * times, 9);
        expect(wide * m).toBeLessThanOrEqual(width);
        expect(along.x + length * m).toBeLessThanOrEqual(width);
        expect(title).toBeGreaterThan(below);
        expect(across.ground - high * up).toBeGreaterThan(title);
        // Lengthwise it stands beside, or under what is written under the other.
        if (along.x > 0) expect(along.x).toBeGreaterThan(wide * m);
        else expect(along.ground - high * up).toBeGreaterThan(across.ground + 30);
        below = along.ground;
      });
      expect(height).toBeGreaterThan(below + 30);
    }), runs(500));
  });
});
