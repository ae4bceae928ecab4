/** What surrounds a predicted density: its scatter, its pore space, its profile with depth, the rules of thumb beside it. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dryDensityOf } from "../../sim/forage/packing.ts";
import { densestDry, poreSpace, targets } from "../../sim/forage/porespace.ts";
import { depthProfile, measuredProfile } from "../../sim/forage/profile.ts";
import { band, chanceOfTarget, densityForChance, residualSd } from "../../sim/forage/scatter.ts";
import { isOutside } from "../../sim/forage/sourced.ts";
import { massRules, observedPackingTime, rulesOfThumb, thickestLayer } from "../../sim/forage/thumb.ts";
import { INCH, US_TON } from "../../sim/forage/us.ts";

const CROPS = ["corn", "grass", "alfalfa", "sorghum", "small-grain"];

describe("The scatter around a predicted density", () => {
  it("makes a plan that predicts the target a coin toss for it", () => {
    for (const crop of CROPS) expect(chanceOfTarget(240, 240, crop)).toBeCloseTo(0.5, 6);
  });
  it("puts as much chance into the band as its level says", () => {
    fc.assert(fc.property(fc.constantFrom(...CROPS), fc.double({ min: 0.05, max: 0.99, noNaN: true }), (crop, level) => {
      const [low, high] = band(400, crop, level);
      expect(chanceOfTarget(400, low, crop) - chanceOfTarget(400, high, crop)).toBeCloseTo(level, 6);
    }), { numRuns: 200 });
  });
  it("reaches 1.2816 standard deviations to each side for 80 %, the usual band", () => {
    const [low, high] = band(240, "corn");
    expect((high - 240) / residualSd.corn.value).toBeCloseTo(1.2816, 4);
    expect(240 - low).toBeCloseTo(high - 240, 9);
  });
  it("is wider for haycrop than for corn, and never reaches below nothing", () => {
    expect(band(240, "alfalfa")[1]).toBeGreaterThan(band(240, "corn")[1]);
    expect(band(20, "grass")[0]).toBe(0);
  });
  it("asks for the density whose chance is the one wanted", () => {
    fc.assert(fc.property(fc.constantFrom(...CROPS), fc.double({ min: 0.02, max: 0.98, noNaN: true }), (crop, chance) => {
      expect(chanceOfTarget(densityForChance(240, chance, crop), 240, crop)).toBeCloseTo(chance, 6);
    }), { numRuns: 200 });
  });
});

describe("Pore space", () => {
  it("agrees with the targets for dry and wet density at 35 to 40 % dry matter, and contradicts one of them well outside", () => {
    const wet = targets.wetDensity.value;
    const spaceAt = (dryMatter: number) => poreSpace(wet * dryMatter, wet, dryMatter);
    for (const dryMatter of [0.35, 0.36, 0.37, 0.38, 0.39, 0.4]) {
      expect(wet * dryMatter).toBeGreaterThanOrEqual(targets.dryDensity.value);
      expect(Math.abs(spaceAt(dryMatter) - targets.poreSpace.value)).toBeLessThan(0.0125);
    }
    expect(wet * 0.28).toBeLessThan(targets.dryDensity.value);
    expect(spaceAt(0.5)).toBeGreaterThan(targets.poreSpace.value);
  });
  it("is worse in a drier crop packed alike, although it scores denser in dry matter", () => {
    fc.assert(fc.property(
      fc.double({ min: 0.25, max: 0.5, noNaN: true }), fc.double({ min: 0.01, max: 0.1, noNaN: true }), fc.double({ min: 1e5, max: 4e5, noNaN: true }), (dryMatter, drier, effort) => {
        const pack = (share: number) => dryDensityOf(effort, 16000, share, 0.15, 2.6);
        const [dry, denser] = [pack(dryMatter), pack(dryMatter + drier)];
        fc.pre(dry < densestDry(dryMatter));
        expect(denser).toBeGreaterThan(dry);
        expect(poreSpace(denser, denser / (dryMatter + drier), dryMatter + drier)).toBeGreaterThan(poreSpace(dry, dry / dryMatter, dryMatter));
      }), { numRuns: 500 });
  });
  it("refuses a crop that would need more room than there is, in words that name the limit", () => {
    const most = densestDry(0.25);
    expect(() => poreSpace(most * 1.01, (most * 1.01) / 0.25, 0.25)).toThrow(/25 % dry matter cannot lie at .* the most it can reach is 276 kg DM\/m3/);
    expect(poreSpace(most * 0.999, (most * 0.999) / 0.25, 0.25)).toBeCloseTo(0.001, 6);
    expect(() => poreSpace(NaN, 700, 0.35)).toThrow(RangeError);
  });
});

describe("The depth profile", () => {
  const slice = fc.record({ depth: fc.double({ min: 0, max: 6, noNaN: true }), volume: fc.double({ min: 0.1, max: 100, noNaN: true }) });
  it("keeps the storage density as its volume mean and grows with depth", () => {
    fc.assert(fc.property(fc.array(slice, { minLength: 1, maxLength: 12 }), fc.double({ min: 100, max: 400, noNaN: true }), (slices, density) => {
      const sorted = [...slices].sort((a, b) => a.depth - b.depth);
      const profile = depthProfile(density, sorted);
      const volume = sorted.reduce((sum, { volume: v }) => sum + v, 0);
      expect(sorted.reduce((sum, s, i) => sum + s.volume * profile[i]!, 0) / volume).toBeCloseTo(density, 8);
      profile.slice(1).forEach((d, i) => expect(d).toBeGreaterThanOrEqual(profile[i]!));
    }), { numRuns: 200 });
  });
  it("sees twice the depth of a slice: floor over surface is 1.33 in 3 m", () => {
    const [surface, floor] = depthProfile(240, [{ depth: 0, volume: 1 }, { depth: 3, volume: 1 }]) as [number, number];
    expect(floor / surface).toBeCloseTo((0.818 + 0.044619 * 6) / 0.818, 4);
  });
  it("is flatter than the measured one in bunkers of the height that was measured", () => {
    for (const height of [3.05, 3.7]) {
      const [top, bottom] = depthProfile(240, [{ depth: 0.5, volume: 1 }, { depth: height - 0.5, volume: 1 }]) as [number, number];
      expect(bottom / top).toBeGreaterThan(1);
      expect(bottom / top).toBeLessThan(measuredProfile.bottomOverTop.value);
    }
  });
  it("wants some volume", () => {
    expect(() => depthProfile(240, [])).toThrow(/at least one slice/);
  });
});

describe("Rules of thumb", () => {
  it("disagree by nearly a factor of two on the tractor mass wanted", () => {
    const wanted = rulesOfThumb(30000, 70 / 3.6).map(({ massWanted }) => massWanted);
    expect(wanted).toHaveLength(Object.keys(massRules).length);
    expect(Math.max(...wanted) / Math.min(...wanted)).toBeCloseTo(1.8, 2);
  });
  it("contradict each other on one and the same crew", () => {
    expect(rulesOfThumb(20000, 70 / 3.6).map(({ rule, enough }) => [rule, enough])).toEqual([["eightHundred", false], ["oneThird", false], ["oneTractor", true]]);
  });
  it("grant exactly the rate at which the crew's mass is the mass wanted", () => {
    for (const { rule, rateGranted } of rulesOfThumb(30000, 1)) {
      expect(rulesOfThumb(30000, rateGranted).find((says) => says.rule === rule)!.massWanted).toBeCloseTo(30000, 6);
    }
  });
  it("saw 1 to 4 minutes a ton on slow days, under one on fast days, and print nothing between", () => {
    const tons = (perHour: number) => (perHour * US_TON) / 3600;
    expect(observedPackingTime(tons(20))!.map((s) => (s * US_TON) / 60)).toEqual([expect.closeTo(1, 9), expect.closeTo(4, 9)]);
    expect(observedPackingTime(tons(90))!.map((s) => (s * US_TON) / 60)).toEqual([0, expect.closeTo(1, 9)]);
    expect(observedPackingTime(tons(45))).toBeNull();
  });
  it("advise a layer of 6 in, 15 cm, at most", () => {
    expect(thickestLayer.value).toBeCloseTo(6 * INCH, 2);
  });
});

describe("A range", () => {
  it("includes its ends, and a figure without one has no outside", () => {
    expect([106, 240, 434].map((x) => isOutside(x, [106, 434]))).toEqual([false, false, false]);
    expect([105.9, 434.1, NaN].map((x) => isOutside(x, [106, 434]))).toEqual([true, true, true]);
    expect(isOutside(1e9, undefined)).toBe(false);
  });
});
