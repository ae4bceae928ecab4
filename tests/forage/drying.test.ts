/** How a crop dries while it waits. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DRIEST, dried, dryingOf, dryingSpread } from "../../sim/forage/drying.ts";
import { cvOf, factorOf } from "../../sim/kernel/index.ts";
import { dryDown } from "../../sim/forage/window.ts";
import { runs } from "../kernel/runs.ts";

const DAY = 86_400;

describe("a crop that waits for the chopper", () => {
  it("goes from 73 to 70 % moisture in 6 days, as printed for corn, at the rate that is published", () => {
    const { way, rate, perSecond } = dryingOf("corn");
    expect([way, rate.mark, rate.value]).toEqual(["standing", "published", 0.5]);
    expect(dried(0.27, perSecond, 6 * DAY)).toBeCloseTo(0.3, 12);
    expect(dried(0.27, perSecond, 5 * DAY)).toBeLessThan(0.3);
  });

  it("is called published for corn only: no other crop's rate was found in print", () => {
    for (const crop of ["sorghum", "grass", "alfalfa", "small-grain"]) expect(dryingOf(crop).rate.mark).toBe("assumption of this project");
    expect(["corn", "sorghum", "grass", "alfalfa", "small-grain"].map((crop) => dryingOf(crop).way)).toEqual(["standing", "standing", "mown", "mown", "mown"]);
  });

  it.each(["corn", "grass"])("varies about its rate (%s) within its range, with the rate as the mean", (crop) => {
    const { rate } = dryingOf(crop);
    const shape = dryingSpread(rate);
    expect((shape.low + shape.mode + shape.high) / 3).toBeCloseTo(1, 12);
    expect(shape.low * rate.value).toBeCloseTo(rate.range![0], 12);
    expect(shape.high * rate.value).toBeCloseTo(rate.range![1], 12);
    const factor = factorOf(shape);
    const many = 2000;
    const mean = Array.from({ length: many }, (_, i) => factor((i + 0.5) / many)).reduce((sum, value) => sum + value, 0) / many;
    // The midpoint rule on a bounded monotone function is off by at most its whole rise over the number of points.
    expect(Math.abs(mean - 1)).toBeLessThan((shape.high - shape.low) / many);
    expect(cvOf(shape)).toBeGreaterThan(0);
  });

  it("takes the ends of the county means for corn", () => {
    expect(dryingOf("corn").rate.range).toEqual(dryDown.range);
  });

  it("never gets wetter, never drier than the driest, and drier the longer it waits and the faster it dries", () => {
    const share = fc.double({ min: 0.1, max: 0.9, noNaN: true });
    const rate = fc.double({ min: 0, max: 1e-5, noNaN: true });
    const time = fc.double({ min: 0, max: 60 * DAY, noNaN: true });
    fc.assert(fc.property(share, rate, rate, time, time, (dryMatter, a, b, s, t) => {
      const now = dried(dryMatter, Math.min(a, b), Math.min(s, t));
      expect(now).toBeGreaterThanOrEqual(dryMatter);
      expect(now).toBeLessThanOrEqual(DRIEST);
      expect(dried(dryMatter, Math.max(a, b), Math.min(s, t))).toBeGreaterThanOrEqual(now);
      expect(dried(dryMatter, Math.min(a, b), Math.max(s, t))).toBeGreaterThanOrEqual(now);
    }), runs(1000));
  });
});
