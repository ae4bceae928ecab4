import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { EndlessDay, rehearseDay } from "../../sim/harvest/day.ts";
import { chanceOf } from "../../sim/study/chance.ts";
import { precision, USUAL_FIGURES, USUAL_PRECISION, type PrecisionOptions } from "../../sim/study/precision.ts";
import { carryOut } from "../../sim/study/work.ts";
import { bunker, NO_VARIATION, roller, tiny, tinyChopper, tinyField } from "../harvest/plan.ts";
import { smallDay } from "./small.ts";

const LONG = process.env.CLAMPSIDE_LONG === "1";

/**
 * One truck and one chopper, so that nobody ever queues: the day is a sum of gamma times whose mean is known. Five loads of 9 t in one row:
 * five fillings of 225 s, five drives of 200 s, five tips of 120 s, four drives back of 100 s, all gamma with mean as told; four changeovers
 * of 20 s, the last load's spreading of 180 s and 600 s of rolling, fixed. A blade is done with a load long before the next one comes.
 */
const LOADS = 5;
const ONE_TRUCK = tiny({
  fields: [tinyField({ area: 5 * 2250, rowLength: 2250 })], choppers: [tinyChopper()],
  variation: { ...NO_VARIATION, ...Object.fromEntries((["cutting", "loaded", "empty", "tip"] as const).map((activity) => [activity, { kind: "gamma", cv: 0.5 }])) },
});
const TRUE_HOURS = (LOADS * (225 + 200 + 120) + (LOADS - 1) * (100 + 20) + 180 + 600) / 3600;

const study = (options: PrecisionOptions) => carryOut(precision(ONE_TRUCK, { figures: ["finishedAt"], ...options }));
/** Standard error of a share of so many studies. */
const error = (share: number, studies: number) => Math.sqrt((share * (1 - share)) / studies);
const coverage = (studies: number, options: PrecisionOptions) => {
  let held = 0;
  for (let seed = 1; seed <= studies; seed++) {
    const { low, high } = study({ ...options, seed }).sureness.finishedAt!;
    if (low <= TRUE_HOURS && TRUE_HOURS <= high) held++;
  }
  return held / studies;
};

describe("The confidence of a mean", () => {
  it("is asked of a day whose exact mean is known: without luck it takes just that long", () => {
    const still = { ...ONE_TRUCK, variation: NO_VARIATION };
    expect(factsOf(still, rehearseDay(still)).measures.finishedAt).toBeCloseTo(TRUE_HOURS, 9);
  });

  // Whole in the long run: 1,000 studies. In the usual run so few that only a gross fault shows: within 3.3 standard errors of 95 %, one in a thousand.
  it("holds the true mean of one truck without a queue in 93 to 97 of 100 studies of 50 days", () => {
    const studies = LONG ? 1000 : 100;
    const held = coverage(studies, { least: 50, most: 50 });
    const [low, high] = LONG ? [0.93, 0.97] : [0.95 - 3.3 * error(0.95, studies), 1];
    expect(held).toBeGreaterThanOrEqual(low);
    expect(held).toBeLessThanOrEqual(high);
  });

  // Stopping at a look that happens to be narrow costs some coverage: 94.4 % of 1,000 studies, about 91 days each.
  it("holds it nearly as often when the study stops itself as soon as it is sure enough", () => {
    const studies = LONG ? 1000 : 30;
    const held = coverage(studies, {});
    if (LONG) console.log(`The stopping rule's limits held the true mean in ${(held * 100).toFixed(1)} % of ${studies} studies.`);
    // 1 % for the stopping, and what a share of so many studies may be off, one in a thousand.
    expect(held).toBeGreaterThanOrEqual(0.94 - 3.3 * error(0.94, studies));
  });
});

describe("The number of days", () => {
  it("is the first look from which every named mean is sure enough, and no more", () => {
    const result = study({ within: 0.025, least: 30, most: 2000 });
    expect(result.reached).toBe(true);
    expect(result.sureness.finishedAt!.within).toBeLessThanOrEqual(0.025);
    expect(result.rehearsals).toBeGreaterThan(30);
    const before = study({ within: 1e-9, least: result.rehearsals - USUAL_PRECISION.between, most: result.rehearsals - USUAL_PRECISION.between });
    expect(before.sureness.finishedAt!.within).toBeGreaterThan(0.025);
  });

  it("is at least 30, and no more than the limit even where that is not enough, and then says so", () => {
    expect(study({ within: 0.5 })).toMatchObject({ rehearsals: 30, reached: true });
    expect(study({ within: 0.0001, most: 50 })).toMatchObject({ rehearsals: 50, reached: false });
  });

  it("is one where there is no luck", () => {
    const result = carryOut(precision(smallDay({ variation: NO_VARIATION })));
    expect(result).toMatchObject({ rehearsals: 1, reached: true });
    expect(Object.keys(result.sureness)).toEqual([...USUAL_FIGURES]);
    expect(result.spread.keepsPace).toEqual({ share: 0, low: 0, high: 0 });
    expect(result.spread.targets.crop).toEqual({ share: 1, low: 1, high: 1 });
  });

  it("does not depend on how the days are handed out, and tells how far it is", () => {
    const told: number[] = [];
    const result = carryOut(precision(smallDay(), { within: 0.01, most: 60 }), { onProgress: ({ done, soFar }) => { told.push(done, soFar?.rehearsals ?? 0); } });
    expect(Math.max(...told)).toBe(result.rehearsals);
    expect(carryOut(precision(smallDay(), { within: 0.01, most: 60 }))).toEqual(result);
  });
});

describe("The spread between days", () => {
  const targets = { dryDensity: 200, poreSpace: 0.5, finishBy: smallDay().shift.start + 2.9 * 3600, waiting: 0.03, relation: null };
  const result = carryOut(precision(smallDay(), { least: 60, most: 60, targets }));
  const days = Array.from({ length: 60 }, (_, rehearsal) => factsOf(smallDay(), rehearseDay(smallDay(), { rehearsal })));

  it("counts the days on which the clamp is closed in time, the chopper waits little, and the clamp is dense enough", () => {
    const share = (met: (day: (typeof days)[number]) => boolean) => days.filter(met).length / days.length;
    const { finish, waiting, density, crop } = result.spread.targets;
    expect(finish!.share).toBeCloseTo(share((day) => day.measures.finishedAt <= 2.9), 12);
    expect(waiting!.share).toBeCloseTo(share((day) => day.measures.chopperWaiting <= 0.03), 12);
    expect(density!.share).toBeCloseTo(share((day) => day.measures.dryDensity >= 0.99 * 200), 12);
    expect(crop!.share).toBe(1);
    expect(result.spread.keepsPace.share).toBeCloseTo(share((day) => day.keepsPace), 12);
    // Luck decides about some of them, so that the counting is put to the test.
    expect(finish!.share).toBeGreaterThan(0);
    expect(finish!.share).toBeLessThan(1);
  });

  it("is no smaller with more days, while the mean gets surer", () => {
    const many = carryOut(precision(smallDay(), { least: 240, most: 240, targets }));
    const width = ({ low, high }: { low: number; high: number }) => high - low;
    // Four times the days: half the width, as far as 60 days know a standard deviation, to 1 / sqrt(2 x 59) or 9 % of it; four times that.
    expect(Math.abs(width(many.sureness.finishedAt!) / width(result.sureness.finishedAt!) / 0.5 - 1)).toBeLessThan(4 / Math.sqrt(2 * 59));
    const [p10, , p90] = many.spread.closedAt!;
    // Between the 10th and the 90th of 60 normal values lie 2.56 deviations, give or take 0.29: 12 %, of which the 60 that are among the 240 share some; four times 10 %.
    expect(Math.abs((p90 - p10) / (result.spread.closedAt![2] - result.spread.closedAt![0]) - 1)).toBeLessThan(0.4);
    expect(width(many.spread.targets.finish!)).toBeLessThan(width(result.spread.targets.finish!));
  });

  it("keeps the relation's own chance apart: it is no share of days", () => {
    expect(result.chanceOfTarget).toBeGreaterThan(0);
    expect(result.chanceOfTarget! * 60).not.toBe(Math.round(result.chanceOfTarget! * 60));
  });
});

describe("A chance", () => {
  it("lies inside its limits, which lie inside 0 to 1, and turns over with what it counts", () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 500 }).chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n))), ([k, n]) => {
      const chance = chanceOf(k, n);
      expect(0 <= chance.low && chance.low <= chance.share && chance.share <= chance.high && chance.high <= 1).toBe(true);
      const other = chanceOf(n - k, n);
      expect(other.low).toBeCloseTo(1 - chance.high, 12);
    }));
  });

  it("has the limits of Wilson's formula where they can be worked out by hand", () => {
    // 10 of 10 with z = 1.959964: low = n / (n + z^2) = 10 / 13.841459.
    expect(chanceOf(10, 10).low).toBeCloseTo(10 / (10 + 1.959963984540054 ** 2), 9);
    expect(chanceOf(10, 10).high).toBe(1);
  });
});

describe("What no study of precision can be made of", () => {
  it("is refused in a sentence", () => {
    for (const within of [0, 1, -1, NaN]) expect(() => study({ within })).toThrow(/between 0 and 1/u);
    for (const least of [0, 1.5]) expect(() => study({ least })).toThrow(/whole number/u);
    expect(() => study({ least: 50, most: 40 })).toThrow(/do not go together/u);
    expect(() => study({ figures: [] })).toThrow(/at least one figure/u);
    const hopeless = smallDay({ packing: { whenBehind: "hold" }, targets: { dryDensity: 420 }, storages: [bunker({ tractors: [roller(3000, { spreads: 20, rolling: 0.01 })] })] });
    expect(() => carryOut(precision(hopeless))).toThrow(EndlessDay);
  });
});
