/** Losses, feed-out, crop windows, loads, fuel and field capacity: what must hold beyond the printed rows. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { acresPerHour, areaRate, fieldEfficiency, materialRate, workingSpeed } from "../../sim/forage/capacity.ts";
import { effluent, effluentCurve } from "../../sim/forage/effluent.ts";
import { advanceOf, daysClosed, faceFor, largestFace, leastAdvance } from "../../sim/forage/feedout.ts";
import { fuelByMass, fuelByPower } from "../../sim/forage/fuel.ts";
import { loadOf, looseFreshDensity } from "../../sim/forage/load.ts";
import { lossAtDensity, lossLineRange, lossSaved, rangesOnly, sealingDelay } from "../../sim/forage/losses.ts";
import { isOutside } from "../../sim/forage/sourced.ts";
import { daysToReach, dryDown, dryMatterWindowOf, windowSide } from "../../sim/forage/window.ts";
import { toSI } from "../../sim/scenario/units.ts";

describe("Loss by density", () => {
  it("falls as density rises, stays between none and all, and the corn trials lie nine points below", () => {
    fc.assert(fc.property(fc.double({ min: 60, max: 700, noNaN: true }), fc.double({ min: 1, max: 100, noNaN: true }), (density, more) => {
      const [here, denser] = [lossAtDensity(density), lossAtDensity(density + more)];
      expect(denser.high).toBeLessThanOrEqual(here.high);
      expect(here.low).toBeGreaterThanOrEqual(0);
      expect(here.low).toBeLessThanOrEqual(here.high);
      if (here.low > 0) expect(here.high - here.low).toBeCloseTo(0.09, 12);
    }), { numRuns: 300 });
  });
  it("knows where the alfalfa table ends", () => {
    expect(isOutside(150, lossLineRange)).toBe(true);
    expect(isOutside(240, lossLineRange)).toBe(false);
    expect(isOutside(360, lossLineRange)).toBe(true);
  });
  it("shows a change of density by the shared slope and by the trial that found nothing", () => {
    const { bySlope, byGrassTrial } = lossSaved(200, 240);
    expect(bySlope).toBeCloseTo(lossAtDensity(200).high - lossAtDensity(240).high, 12);
    expect(byGrassTrial).toBe(0);
    expect(lossSaved(240, 200).bySlope).toBeCloseTo(-bySlope, 12);
  });
  it("names no rate for a delay in sealing, only evidence and a caution", () => {
    expect(Object.values(sealingDelay).every((words) => typeof words === "string")).toBe(true);
    expect(sealingDelay.evidence).toMatch(/72 %.*91 %.*moisture/);
    for (const { value: [low, high] } of Object.values(rangesOnly)) expect(low).toBeLessThan(high);
  });
});

describe("Effluent", () => {
  it("falls without a jump from the wettest crop of the curve to none at 30 % dry matter", () => {
    let before = effluent(0.15);
    for (let d = 151; d <= 320; d++) {
      const here = effluent(d / 1000);
      expect(here).toBeLessThanOrEqual(before);
      expect(before - here).toBeLessThan(2.6);
      before = here;
    }
    expect(effluent(0.285)).toBeCloseTo(767 - 5.34 * 285 + 0.00936 * 285 ** 2, 9);
    expect(effluent(0.3)).toBe(0);
    expect(effluent(0.45)).toBe(0);
    expect(effluent(0.2925)).toBeCloseTo(effluent(0.285) / 2, 9);
  });
  it("knows that the curve was not drawn below 150 g/kg", () => {
    expect(isOutside(140, effluentCurve.range)).toBe(true);
  });
});

describe("Feed-out", () => {
  it("moves a face on by exactly the advance it was sized for", () => {
    fc.assert(fc.property(fc.double({ min: 100, max: 20000, noNaN: true }), fc.double({ min: 100, max: 400, noNaN: true }), fc.double({ min: 0.05, max: 1, noNaN: true }), (dry, density, advance) => {
      expect(advanceOf(dry, density, faceFor(dry, density, advance))).toBeCloseTo(advance, 12);
    }), { numRuns: 200 });
  });
  it("allows a smaller face in summer than in winter", () => {
    expect(largestFace(3300, 250, "summer")).toBeLessThan(largestFace(3300, 250, "winter"));
    expect(largestFace(3300, 250, "winter")).toBeCloseTo(13.2 / leastAdvance.winter.value, 9);
  });
  it("leaves a storage closed for three to four weeks", () => {
    expect(daysClosed.range).toEqual([21, 28]);
  });
});

describe("The crop window", () => {
  it("has corn fit at 30 to 35 % dry matter and hay crops at 35 to 40", () => {
    expect(dryMatterWindowOf("corn").value).toEqual([0.3, 0.35]);
    expect([0.29, 0.3, 0.35, 0.36].map((dm) => windowSide(dm, "corn"))).toEqual(["too wet", "inside", "inside", "too dry"]);
    expect([0.34, 0.37, 0.41].map((dm) => windowSide(dm, "alfalfa"))).toEqual(["too wet", "inside", "too dry"]);
  });
  it("takes longer at a slower dry-down, no time when it is open, and refuses a crop that does not dry", () => {
    expect(daysToReach(0.73, 0.7, dryDown.range![0])).toBeGreaterThan(daysToReach(0.73, 0.7, dryDown.range![1]));
    expect(daysToReach(0.66, 0.7)).toBe(0);
    expect(() => daysToReach(0.73, 0.7, 0)).toThrow(/above 0/);
  });
});

describe("Field, load and fuel", () => {
  it("gives one area rate in metric and in US units", () => {
    fc.assert(fc.property(fc.double({ min: 5, max: 60, noNaN: true }), fc.double({ min: 1, max: 10, noNaN: true }), fc.double({ min: 0.3, max: 1, noNaN: true }), (ft, mph, efficiency) => {
      const metric = (areaRate(toSI(ft, "ft", "length"), toSI(mph, "mph", "speed"), efficiency) * 3600) / toSI(1, "acre", "area");
      expect(Math.abs(metric / acresPerHour(ft, mph, efficiency) - 1)).toBeLessThan(1e-12);
    }), { numRuns: 200 });
  });
  it("covers width x speed x efficiency / 10 hectares an hour, and that times the yield in tonnes", () => {
    const rate = areaRate(6, 6 / 3.6, fieldEfficiency.value);
    expect((rate * 3600) / 1e4).toBeCloseTo((6 * 6 * 0.7) / 10, 12);
    expect(materialRate(rate, 4.5) * 3.6).toBeCloseTo(2.52 * 45, 9);
    expect(isOutside(12, workingSpeed.range)).toBe(true);
  });
  it("limits a load by whichever comes first, mass or volume", () => {
    expect(loadOf(16000, 40, 340)).toEqual({ mass: 13600, limitedBy: "volume" });
    expect(loadOf(12000, 40, 340)).toEqual({ mass: 12000, limitedBy: "mass" });
    expect(loadOf(16000, null, 340)).toEqual({ mass: 16000, limitedBy: "mass" });
    expect(looseFreshDensity(0.34)).toBeCloseTo(329.4, 1);
  });
  it("burns fuel in proportion to power, time and mass", () => {
    expect(fuelByPower(200, 1800)).toBeCloseTo(22.3, 9);
    expect(fuelByMass(630000)).toBeCloseTo(378, 9);
  });
});
