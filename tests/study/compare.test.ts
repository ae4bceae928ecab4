import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mean, sampleVariance } from "simple-statistics";
import { factsOf } from "../../sim/findings/facts.ts";
import { EndlessDay, rehearseDay } from "../../sim/harvest/day.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { compare } from "../../sim/study/compare.ts";
import { differenceOf } from "../../sim/study/difference.ts";
import { carryOut } from "../../sim/study/work.ts";
import { field, NO_VARIATION, roller, bunker } from "../harvest/plan.ts";
import { smallDay, smallWithRoller, smallWithTrucks } from "./small.ts";

const compared = (scenarios: readonly Scenario[], rehearsals = 20) => carryOut(compare(scenarios, { rehearsals }));

/** All measures of each day, by the engine alone. */
const byHand = (scenario: Scenario, n: number, seed = scenario.seed) =>
  Array.from({ length: n }, (_, rehearsal) => factsOf(scenario, rehearseDay(scenario, { seed, rehearsal })).measures);

describe("A comparison", () => {
  it("takes the difference day by day, the same day of both plans", () => {
    const [a, b] = [smallDay(), smallWithRoller()];
    const { dryDensity } = compared([a, b]).differences[0]!.figures;
    const [ofA, ofB] = [a, b].map((scenario) => byHand(scenario, 20).map((day) => day.dryDensity)) as [number[], number[]];
    expect(dryDensity!.mean).toBeCloseTo(mean(ofB) - mean(ofA), 9);
    expect(dryDensity!.sd ** 2).toBeCloseTo(sampleVariance(ofB.map((value, i) => value - ofA[i]!)), 9);
  });

  it("finds no difference between a plan and itself, on none of the figures", () => {
    const { differences } = compared([smallDay(), smallDay()]);
    for (const difference of Object.values(differences[0]!.figures)) expect(difference).toMatchObject({ mean: 0, low: 0, high: 0, sure: false, better: null });
  });

  it("says which of the sure differences are for the better: a roller more packs denser and costs more by the tonne", () => {
    const { dryDensity, costPerTonne, apronPeak } = compared([smallDay(), smallWithRoller()]).differences[0]!.figures;
    expect(dryDensity).toMatchObject({ sure: true, better: true });
    expect(costPerTonne).toMatchObject({ sure: true, better: false });
    expect(apronPeak!.better).toBeNull();
  });

  it("counts the time of day, so that a plan that starts an hour earlier is done earlier", () => {
    const early = smallDay({ shift: { start: 6 * 3600 } });
    const { closedAt, finishedAt } = compared([smallDay(), early]).differences[0]!.figures;
    expect(closedAt!.mean).toBeCloseTo(finishedAt!.mean - 1, 9);
    expect(closedAt!.better).toBe(true);
  });

  it("widens its limits with each further plan, so that all differences of a figure hold together", () => {
    const two = compared([smallDay(), smallWithRoller()]);
    const three = compared([smallDay(), smallWithRoller(), smallWithTrucks(6)]);
    const width = ({ low, high }: { low: number; high: number }) => high - low;
    const [narrow, wide] = [two, three].map(({ differences }) => width(differences[0]!.figures.dryDensity!));
    expect(wide).toBeGreaterThan(narrow!);
  });

  it("tells what makes figures incomparable: another crop, another target, another currency, less luck", () => {
    const other = smallDay({ fields: [field({ area: 80_000 })], targets: { dryDensity: 220 }, money: { currency: "USD" }, variation: NO_VARIATION });
    const { notes } = compared([smallDay(), other], 2);
    for (const word of ["crop", "target", "USD", "luck"]) expect(notes.some((note) => note.includes(word)), word).toBe(true);
    expect(compared([smallDay(), smallWithRoller()], 2).notes).toEqual([]);
  });

  it("refuses one plan, seven plans and no rehearsals in a sentence, and says when a day does not end", () => {
    const many = (n: number) => Array.from({ length: n }, () => smallDay());
    expect(() => compared(many(1))).toThrow(/2 to 6 scenarios, not 1/u);
    expect(() => compared(many(7))).toThrow(/2 to 6 scenarios, not 7/u);
    for (const rehearsals of [0, -1, 1.5, NaN]) expect(() => compared(many(2), rehearsals)).toThrow(/whole number of 1 or more/u);
    const hopeless = smallDay({ packing: { whenBehind: "hold" }, targets: { dryDensity: 420 }, storages: [bunker({ tractors: [roller(3000, { spreads: 20, rolling: 0.01 })] })] });
    expect(() => compared([smallDay(), hopeless], 1)).toThrow(EndlessDay);
  });
});

describe("The same luck for both plans", () => {
  const N = 60;
  /** Variances of normal samples of N days are unsure by a factor exp(z sqrt(4 / (N - 1))); at one in a thousand z is 3.09. */
  const BY_CHANCE = Math.exp(3.09 * Math.sqrt(4 / (N - 1)));

  it.each([
    ["a truck", smallWithTrucks(4), smallWithTrucks(5), ["finishedAt", "costPerTonne", "truckCycle"]],
    ["a tractor", smallDay(), smallWithRoller(), ["dryDensity", "costPerTonne", "packingTimePerTonne"]],
  ] as const)("makes the difference surer than separate luck does when %s is added, by more than chance explains", (_, a, b, names) => {
    const { figures } = compared([a, b], N).differences[0]!;
    const [ofA, ofB] = [byHand(a, N), byHand(b, N, 2)];
    for (const name of names) {
      const separate = ofB.map((day, i) => day[name] - ofA[i]![name]);
      const real = sampleVariance(separate) / figures[name]!.sd ** 2;
      expect(real, name).toBeGreaterThan(BY_CHANCE);
      // What is reported is worked out from the two plans' own days, and agrees with what separate luck really gives.
      expect(figures[name]!.luckGain! / real, name).toBeGreaterThan(1 / BY_CHANCE);
      expect(figures[name]!.luckGain! / real, name).toBeLessThan(BY_CHANCE);
    }
  });
});

describe("A difference", () => {
  const values = fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 3, maxLength: 20 });
  const pairs = values.chain((a) => fc.tuple(fc.constant(a), fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: a.length, maxLength: a.length })));

  it("turns over when the plans change places, and moves with what is added to one of them", () => {
    fc.assert(fc.property(pairs, fc.double({ min: -100, max: 100, noNaN: true }), ([a, b], shift) => {
      const [there, back] = [differenceOf(a, b, "t")!, differenceOf(b, a, "t")!];
      expect(there.mean).toBeCloseTo(-back.mean, 9);
      expect(there.low).toBeCloseTo(-back.high, 6);
      const moved = differenceOf(a, b.map((value) => value + shift), "t")!;
      expect(moved.mean).toBeCloseTo(there.mean + shift, 6);
      expect(moved.sd).toBeCloseTo(there.sd, 6);
    }));
  });

  it("is not known where a day gives no such figure", () => {
    expect(differenceOf([1, NaN], [1, 2], "t")).toBeNull();
    expect(differenceOf([], [], "t")).toBeNull();
  });

  it("of one day has no limits but itself", () => {
    expect(differenceOf([3], [5], "t")).toMatchObject({ mean: 2, low: 2, high: 2, sure: true, luckGain: null });
  });
});
