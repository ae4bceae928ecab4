/** How a herd empties a storage: the face's pace, days of feed, when to open, and the width that would do. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dryPerDay, feedOutOf, freshWidth } from "../../sim/findings/feedout.ts";
import { findingsOf } from "../../sim/findings/findings.ts";
import type { Span } from "../../sim/findings/types.ts";
import { faceFor, leastAdvance, volumePerDay } from "../../sim/forage/feedout.ts";
import { FOOT, POUND } from "../../sim/forage/us.ts";
import { checkScenario } from "../../sim/scenario/read.ts";
import type { Storage } from "../../sim/scenario/types.ts";
import { LONG_STRIP, rehearsed, sound, withStorage } from "./rehearsed.ts";

const RUNS = process.env.CLAMPSIDE_LONG ? 1000 : 100;
const bunker = sound(LONG_STRIP).storages[0]!;
const pile: Storage = { ...bunker, form: "pile", width: 30, length: 60, height: 3, sideSlope: 3 };
const exactly = (fed: number): Span => ({ low: fed, central: fed, high: fed });
const anyHerd = fc.record({ head: fc.integer({ min: 1, max: 5000 }), intake: fc.double({ min: 1, max: 25, noNaN: true }), season: fc.constantFrom("winter" as const, "summer" as const) });
const anyStorage = fc.constantFrom(bunker, pile);

const found = (document: unknown) => {
  const scenario = sound(document);
  const [, days] = rehearsed(scenario);
  return findingsOf({ scenario, seed: 1, days, machines: [], defaults: [] });
};

describe("Sizing, as it is published", () => {
  it("Holmes, in Hay & Forage Grower: 3,000 lb DM a day at 14 lb/ft3 is 214.3 ft3 a day; 6 in a day want a face of 428.6 ft2", () => {
    const herd = { head: 100, intake: 30 * POUND, season: "winter" } as const;
    const density = (14 * POUND) / FOOT ** 3;
    expect(volumePerDay(dryPerDay(herd), density) / FOOT ** 3).toBeCloseTo(214.3, 1);
    expect(faceFor(dryPerDay(herd), density, 0.5 * FOOT) / FOOT ** 2).toBeCloseTo(428.6, 1);
  });

  it("German advisory table, 33 % DM: 500 cows at 20 kg fresh take 92.1 m3 a week, and a bunker so large is fed in that week", () => {
    const herd = { head: 500, intake: 20 * 0.33, season: "winter" } as const;
    const week = 7 * dryPerDay(herd);
    expect(week / 0.33 / 1000).toBeCloseTo(70, 9);
    expect(volumePerDay(week, 0.33 * 760)).toBeCloseTo(92.1, 1);
    expect(feedOutOf(herd, bunker, 92.1, exactly(92.1 * 0.33 * 760)).daysOfFeed.central).toBeCloseTo(7, 2);
  });
});

describe("Feed-out", () => {
  it("takes the whole volume through the face in the days of feed, whatever was lost", () => {
    fc.assert(fc.property(anyHerd, anyStorage, fc.double({ min: 50, max: 1400, noNaN: true }), fc.double({ min: 90, max: 350, noNaN: true }), (herd, storage, volume, left) => {
      const { advance, face, daysOfFeed } = feedOutOf(herd, storage, volume, exactly(left * volume));
      expect(Math.abs((advance * face * daysOfFeed.central) / volume - 1)).toBeLessThan(1e-9);
    }), { numRuns: RUNS });
  });

  it("keeps one face exactly at the advised pace at the width it calls fresh, in walls and between slopes", () => {
    fc.assert(fc.property(anyHerd, anyStorage, fc.double({ min: 150, max: 300, noNaN: true }), fc.double({ min: 1, max: 5, noNaN: true }), (herd, storage, density, height) => {
      const width = freshWidth(herd, density, height, storage.sideSlope);
      if (width === null) {
        // Even the narrowest section of this height, a ridge, is too large.
        expect(storage.sideSlope * height * height * leastAdvance[herd.season].value * density).toBeGreaterThan(dryPerDay(herd));
        return;
      }
      const face = (width - storage.sideSlope * height) * height;
      expect(Math.abs(dryPerDay(herd) / (density * face) / leastAdvance[herd.season].value - 1)).toBeLessThan(1e-9);
    }), { numRuns: RUNS });
  });

  it("opens no face, one or two, as many as keep the pace advised for the season", () => {
    // 12 m x 3.2 m full: 38.4 m2; 250 kg DM/m3 left. 15 cm a day take 1,440 kg DM, 23 cm 2,208 kg, two faces twice that.
    const feed = (eaten: number, season: "winter" | "summer") => feedOutOf({ head: 1, intake: eaten, season }, bunker, 1000, exactly(250_000));
    expect(feed(1000, "winter").face).toBeCloseTo(38.4, 9);
    expect([1400, 1500, 2800, 2900].map((eaten) => feed(eaten, "winter").faces)).toEqual([0, 1, 1, 2]);
    expect([2100, 2300, 4300, 4500].map((eaten) => feed(eaten, "summer").faces)).toEqual([0, 1, 1, 2]);
    expect(feed(1400, "winter").inWords).toMatch(/under the 15 cm advised at the least in winter/);
    expect(feed(1500, "winter").inWords).toMatch(/keep one open/);
    expect(feed(2900, "winter").inWords).toMatch(/both keep/);
  });

  it("says how long it feeds over the range of the ledger, and when it may be opened", () => {
    const { daysOfFeed, openAfter, inWords } = feedOutOf({ head: 100, intake: 10, season: "winter" }, bunker, 1000, { low: 150_000, central: 200_000, high: 230_000 });
    expect(daysOfFeed).toEqual({ low: 150, central: 200, high: 230 });
    expect(openAfter).toEqual([21, 28]);
    expect(inWords).toMatch(/200 days \(150 to 230/);
    expect(inWords).toMatch(/closed for 21 days at the least/);
    expect(feedOutOf({ head: 200_000, intake: 1, season: "winter" }, bunker, 1000, exactly(200_000)).inWords).toMatch(/ for 1 day \(1 to 1 over/u);
    expect(feedOutOf({ head: 900_000, intake: 1, season: "winter" }, bunker, 1000, exactly(200_000)).inWords).toMatch(/It feeds 900,000 head for less than a day\. Leave/u);
  });

  it("asks for a lower pile where no width at its height would keep the face fresh", () => {
    const few = feedOutOf({ head: 10, intake: 10, season: "summer" }, pile, 2000, exactly(400_000));
    expect(few.freshWidth).toBeNull();
    expect(few.inWords).toMatch(/a lower pile would do/);
  });
});

describe("The findings", () => {
  it("give the feed-out of every storage that a herd eats from, and none without a herd", () => {
    const herd = { head: 120, intake: "9 kg/day", season: "summer" };
    const { storages: [fed], measures } = found({ ...LONG_STRIP, herd });
    expect(fed!.feedOut!.daysOfFeed.central).toBeCloseTo((1000 * measures.dryMatterFed!.mean) / (120 * 9), 9);
    expect(fed!.feedOut!.minimum).toBe(leastAdvance.summer.value);
    expect(found(LONG_STRIP).storages[0]!.feedOut).toBeUndefined();
  });

  it("say what closing takes: the surface, more film than that, weights and hours, and nothing of it without a cover", () => {
    const covered = found(LONG_STRIP).storages[0]!;
    expect(covered.footprint * covered.meanDepth).toBeCloseTo((1000 * covered.dryT) / covered.dryDensity.mean, 6);
    expect(covered.cover.film).toBeGreaterThan(covered.coverArea);
    expect(covered.cover.hours).toBeCloseTo(covered.coverArea / 300, 9);
    expect(covered.cover.weights.tyres).toBeGreaterThan(covered.coverArea);
    const bare = found({ ...LONG_STRIP, storage: [{ ...LONG_STRIP.storage[0], cover: "none" }] }).storages[0]!;
    expect(bare.coverArea).toBeCloseTo(covered.coverArea, 9);
    expect(bare.cover).toEqual({ film: 0, hours: 0, weights: { tyres: 0, bags: 0 } });
    expect(bare.fedT.central).toBeLessThan(covered.fedT.central);
  });

  it("see more surface on a pile than on a bunker of the same forage", () => {
    const scenario = sound(LONG_STRIP);
    const surface = (storage: Storage) => rehearsed(withStorage(scenario, storage))[1][0]!.storages[0]!.cover.surface;
    expect(surface({ ...pile, width: 24, length: 45 })).toBeGreaterThan(surface(bunker));
  });

  it("are refused for a herd of nobody, in the user's words", () => {
    const checked = checkScenario({ ...LONG_STRIP, herd: { head: 0, intake: "9 kg/day" } });
    expect("problems" in checked && checked.problems).toEqual([expect.objectContaining({ pointer: "/herd/head", detail: expect.stringContaining("whole number from 1") })]);
  });
});
