import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Streams } from "../../sim/kernel/random.ts";
import { guessesOf } from "../../sim/study/guesses.ts";
import { screened, walksOf } from "../../sim/study/morris.ts";
import { EFFECTS } from "../../sim/study/effectnames.ts";
import { sensitivity, type SensitivityOptions } from "../../sim/study/sensitivity.ts";
import { carryOut } from "../../sim/study/work.ts";
import { bunker, NO_VARIATION, roller, tiny, tinyChopper, tinyField, trucks } from "../harvest/plan.ts";
import { example, exampleNames } from "../scenarios/example.ts";
import { smallDay } from "./small.ts";

/** One truck without a queue and without luck, five loads: every swing of the finish can be worked by hand. */
const ONE_TRUCK = tiny({ fields: [tinyField({ area: 5 * 2250, rowLength: 2250 })], choppers: [tinyChopper()] });
const studied = (options: SensitivityOptions = {}, scenario = ONE_TRUCK) => carryOut(sensitivity(scenario, options));
const row = (result: ReturnType<typeof studied>, id: string) => result.rows.find((each) => each.id === id)!;

describe("The guesses of a planner", () => {
  it("leave out what a scenario has nothing of, and move nothing but what they are about", () => {
    const ids = (scenario: Parameters<typeof guessesOf>[0]) => guessesOf(scenario).map(({ id }) => id);
    expect(ids(ONE_TRUCK)).not.toContain("weighing");
    expect(ids(smallDay())).toContain("weighing");
    expect(ids(smallDay({ money: { labourPerHour: 0 } }))).not.toContain("labour");
  });

  it.each(exampleNames)("keep %s a day that can be rehearsed, wherever in their ranges they all lie", (name) => {
    const scenario = example(name);
    const before = JSON.stringify(scenario);
    fc.assert(fc.property(fc.array(fc.constantFrom(0, 1), { minLength: 20, maxLength: 20 }), (ends) => {
      const moved = guessesOf(scenario).reduce((plan, { apply, low, high }, i) => apply(plan, ends[i] ? high : low), scenario);
      for (const { rolling, mass } of moved.storages.flatMap(({ tractors }) => tractors)) expect(rolling > 0 && rolling <= 1 && mass > 0).toBe(true);
      for (const field of moved.fields) expect(field.distance >= (moved.lane?.length ?? 0) && field.dryMatter > 0.05 && field.dryMatter < 0.95).toBe(true);
      expect(moved.packing.layer >= 0.02 && moved.packing.layer <= 0.4).toBe(true);
    }), { numRuns: 20 });
    expect(JSON.stringify(scenario)).toBe(before);
  });

  it("take a planner's own range, and refuse one that is none or of something unknown", () => {
    expect(guessesOf(ONE_TRUCK, { tip: [0.5, 2] }).find(({ id }) => id === "tip")).toMatchObject({ low: 0.5, high: 2 });
    expect(() => guessesOf(ONE_TRUCK, { tip: [2, 0.5] })).toThrow(/range of "tip"/u);
    expect(() => guessesOf(ONE_TRUCK, { tip: [0, 1] })).toThrow(/above 0/u);
    expect(() => guessesOf(ONE_TRUCK, { mud: [0.9, 1.1] })).toThrow(/no guess "mud"; known are yield/u);
  });
});

describe("From the low to the high end, all else as it is", () => {
  const result = studied({ walks: 0 });

  it("moves the finish by as much as a hand calculation says", () => {
    // Five tips of 120 s, 0.7 to 1.3 of it; five changes of truck less one, 20 s, 0.7 to 1.5.
    expect(row(result, "tip").swing!.by.finish.mean).toBeCloseTo((5 * 120 * 0.6) / 3600, 9);
    expect(row(result, "turns").swing!.by.finish.mean).toBeCloseTo((4 * 20 * 0.8) / 3600, 9);
    // Drives of 200 s loaded and 100 s empty, at 0.85 and 1.15 of the speed.
    const road = 5 * 200 + 4 * 100;
    expect(row(result, "road-speed").swing!.by.finish.mean).toBeCloseTo((road / 1.15 - road / 0.85) / 3600, 9);
  });

  it("moves the density by the mass of the tractors and not the finish, and the cost by the rates and nothing else", () => {
    const mass = row(result, "tractor-mass").swing!.by;
    expect(mass.density.mean).toBeGreaterThan(0);
    expect(mass.finish.mean).toBe(0);
    const rates = row(result, "machine-rates").swing!.by;
    expect(rates.cost.sure).toBe(true);
    for (const effect of EFFECTS) if (effect !== "cost") expect(rates[effect].mean).toBe(0);
  });

  it("puts first what moves some figure most, counted in what people notice, and says what to measure", () => {
    const importance = result.rows.map((each) => each.importance!);
    expect(importance).toEqual([...importance].sort((a, b) => b - a));
    expect(result.measure[0]!.id).toBe(result.rows[0]!.id);
    expect(result.measure.length).toBeLessThanOrEqual(5);
    expect(result.inWords).toContain(result.measure[0]!.how);
    // Ten times what is guessed of it otherwise: now it matters most.
    expect(studied({ walks: 0, ranges: { tip: [0.1, 10] } }).rows[0]!.id).toBe("tip");
  });

  it("counts only what is sure where there is luck", () => {
    const lucky = studied({ rehearsals: 12, walks: 0 }, smallDay());
    for (const { swing, most, importance } of lucky.rows) {
      if (most !== null) expect(swing!.by[most].sure).toBe(true);
      else expect(importance).toBe(0);
    }
    expect(lucky.rows.filter(({ most }) => most !== null).length).toBeGreaterThan(5);
  });

  it("ranks first a guess at one end of which the crew never gets done", () => {
    // A crew without any mass to speak of never packs a lift to the target, and the rule lets none be buried before.
    const edge = smallDay({ packing: { whenBehind: "hold" }, storages: [bunker({ tractors: [roller(9000, { spreads: 60, rolling: 0.5 })] })], variation: NO_VARIATION, trucks: [trucks(2)] });
    const edged = carryOut(sensitivity(edge, { walks: 0, ranges: { "tractor-mass": [0.001, 2] } }));
    expect(edged.rows[0]).toMatchObject({ id: "tractor-mass", swing: null, importance: null });
    expect(edged.measure[0]!.id).toBe("tractor-mass");
  });
});

describe("The screening", () => {
  const uniform = () => new Streams(7, 0).stream("test");

  it("walks so that each input moves once a walk, by the same step, and stays inside its range", () => {
    for (const { points, moved } of walksOf(9, 25, uniform())) {
      expect([...moved].sort((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
      points.slice(1).forEach((point, step) => {
        const changed = point.flatMap((level, i) => (level === points[step]![i] ? [] : [i]));
        expect(changed).toEqual([moved[step]]);
        expect(Math.abs(point[moved[step]!]! - points[step]![moved[step]!]!)).toBeCloseTo(2 / 3, 12);
      });
      for (const level of points.flat()) expect(level >= -1e-12 && level <= 1 + 1e-12).toBe(true);
    }
  });

  it("finds the slopes of a sum of straight lines exactly, with no deviation, and a deviation where two inputs hang together", () => {
    const slopes = [3, -1, 0.5, 0];
    const walks = walksOf(4, 10, uniform());
    const straight = walks.map(({ points }) => points.map((point) => point.reduce((sum, level, i) => sum + slopes[i]! * level, 0)));
    slopes.forEach((slope, i) => {
      expect(screened(walks, straight, i).effect).toBeCloseTo(Math.abs(slope), 9);
      expect(screened(walks, straight, i).sd).toBeCloseTo(0, 9);
    });
    const product = walks.map(({ points }) => points.map(([a, b]) => 4 * a! * b!));
    expect(screened(walks, product, 0).sd).toBeGreaterThan(0.4);
    expect(screened(walks, product, 2).effect).toBe(0);
  });

  it("tells what the ends alone tell where guesses do not hang together, and that they do where they do", () => {
    // Tip and labour do not meet: the finish moves by the tips alone.
    const result = studied({ walks: 5 });
    expect(row(result, "labour").screened!.finish.effect).toBe(0);
    expect(row(result, "labour").screened!.density.effect).toBe(0);
    expect(row(result, "tip").screened!.finish.effect).toBeGreaterThan(0.5 * row(result, "tip").swing!.by.finish.mean);
    // A slower chopper matters only where its throughput does not stop it first: those two hang together.
    const stopped = studied({ walks: 12, ranges: { throughput: [0.2, 1.2], "chopper-speed": [0.2, 1.2] } }, tiny({ choppers: [tinyChopper({ throughput: 40 })] }));
    expect(row(stopped, "throughput").hangsTogether).toBe(true);
  });

  it("is the same each time, and other with another seed", () => {
    const day = smallDay();
    const [first, again, other] = [1, 1, 2].map((seed) => JSON.stringify(studied({ rehearsals: 2, walks: 2, seed }, day)));
    expect(again).toBe(first);
    expect(other).not.toBe(first);
  });

  it("is refused for no whole number of walks, or of rehearsals", () => {
    expect(() => studied({ walks: -1 })).toThrow(/whole number of 0 or more/u);
    expect(() => studied({ rehearsals: 0 })).toThrow(/whole number of 1 or more/u);
  });
});
