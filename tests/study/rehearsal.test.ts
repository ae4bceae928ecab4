/** Many rehearsals of one scenario: which days, how many, what is said of them together, and which one is shown. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { summarise } from "../../sim/findings/summary.ts";
import { MEASURES, type MeasureName } from "../../sim/findings/types.ts";
import { EndlessDay, rehearseDay } from "../../sim/harvest/day.ts";
import { isDeterministic, rehearse, USUAL_REHEARSALS, usualRehearsals } from "../../sim/study/rehearsal.ts";
import { anyDay, PATIENCE, RUNS } from "../harvest/generated.ts";
import { anyStart } from "../harvest/noon.ts";
import { blade, bunker, field, roller, trucks, varying } from "../harvest/plan.ts";
import { sum } from "../harvest/reading.ts";
import { smallDay } from "./small.ts";

/** Places of a document whose number is none, which JSON would write as null, and sentences that would have told one. */
function strays(value: unknown, path = ""): string[] {
  if (typeof value === "string") return /NaN|Infinity|undefined|–/u.test(value) ? [`${path}: ${value}`] : [];
  if (typeof value === "number") return Number.isFinite(value) ? [] : [path];
  return typeof value === "object" && value !== null ? Object.entries(value).flatMap(([key, inner]) => strays(inner, `${path}/${key}`)) : [];
}

const N = 12;
const scenario = smallDay();
const still = smallDay({ variation: varying({}) });

describe("A study of rehearsals", () => {
  const { findings, day, rehearsal } = rehearse(scenario, { rehearsals: N });
  const days = Array.from({ length: N }, (_, i) => factsOf(scenario, rehearseDay(scenario, { seed: scenario.seed, rehearsal: i })));

  it("rehearses the days 0 to n - 1 of the scenario's seed and sums up each measure over them", () => {
    expect([findings.rehearsals, findings.seed]).toEqual([N, scenario.seed]);
    for (const name of Object.keys(MEASURES) as MeasureName[]) {
      expect(findings.measures[name] ?? null, name).toEqual(summarise(days.map((facts) => facts.measures[name]), MEASURES[name]));
    }
    expect(Object.keys(findings.measures)).not.toContain("fuel");
  });

  it("leaves out what a day does not give: where the relation promises more than there is room for, no pore space", () => {
    const squeezed = smallDay({ variation: varying({}), packing: { layer: 0.02, whenBehind: "hold" }, storages: [bunker({ tractors: [blade(30_000), roller(60_000), roller(60_000, { name: "Third" })] })], trucks: [trucks(1)], fields: [field({ area: 20_000, distance: 8000 })] });
    const { findings: dense } = rehearse(squeezed);
    expect(dense.measures.poreSpace).toBeUndefined();
    expect(dense.storages[0]!.dryDensity.mean).toBeGreaterThan(500);
    expect(dense.storages[0]).not.toHaveProperty("poreSpace");
  });

  it("never holds a number that is none, nor a sentence with a hole, whatever the day and from wherever it is taken up", () => {
    fc.assert(fc.property(anyDay().chain((day) => fc.tuple(fc.constant(day), fc.option(anyStart(day), { nil: undefined }))), ([day, start]) => {
      try {
        expect(strays(rehearse(day, { rehearsals: 2, ...(start && { start }) }).findings)).toEqual([]);
      } catch (error) {
        if (!(error instanceof EndlessDay)) throw error;
      }
    }), RUNS);
  }, PATIENCE);

  it("shows the day that finishes in the middle, the earlier of two, its state changes kept", () => {
    const finishes = days.map((facts) => facts.measures.finishedAt);
    expect(finishes.filter((finish) => finish < finishes[rehearsal]!)).toHaveLength(N / 2 - 1);
    expect(day.states).not.toBeNull();
    expect(day.lifts).toEqual(rehearseDay(scenario, { rehearsal }).lifts);
  });

  it("says the chance of keeping pace as the share of days that do, and machines' hours as means", () => {
    expect(findings.verdict.chance).toBe(days.filter((facts) => facts.keepsPace).length / N);
    const chopper = findings.machines.find((machine) => machine.kind === "chopper")!;
    expect(chopper.hours.cutting).toBeCloseTo(sum(days.map((facts) => facts.machines[0]!.seconds.cutting!)) / N / 3600, 9);
    expect(chopper.loads).toBeCloseTo(sum(days.map((facts) => facts.measures.loads)) / N, 9);
  });

  it("gives the same document again, and another for another seed", () => {
    const text = (seed?: number) => JSON.stringify(rehearse(scenario, { rehearsals: 3, seed }).findings);
    expect(text()).toBe(text());
    expect(text(scenario.seed)).toBe(text());
    expect(text(scenario.seed + 1)).not.toBe(text());
  });

  it("tells after each day that it is done", () => {
    let told = 0;
    rehearse(scenario, { rehearsals: 4, onDay: () => { told += 1; } });
    expect(told).toBe(4);
  });
});

describe("How many rehearsals", () => {
  it("one where nothing varies, a hundred where something does", () => {
    expect([usualRehearsals(still), usualRehearsals(scenario), USUAL_REHEARSALS]).toEqual([1, 100, 100]);
    expect(usualRehearsals(smallDay({ variation: varying({ tip: 0.1 }) }))).toBe(100);
    expect(rehearse(still).findings.rehearsals).toBe(1);
  });

  it("one where breakdowns come as regularly as everything else, for then they do not vary either", () => {
    const storages = [bunker({ tractors: [blade(), roller(16_000, { breakdowns: { between: 3000, repair: 600 } })] })];
    const regular = { ...still, storages };
    expect(isDeterministic(regular)).toBe(true);
    expect(rehearseDay(regular, { rehearsal: 5 })).toEqual(rehearseDay(regular));
    expect(isDeterministic({ ...regular, variation: varying({ load: 0.1 }) })).toBe(false);
  });

  it.each([0, -1, 1.5, NaN, Infinity])("%d is refused in words", (rehearsals) => {
    expect(() => rehearse(scenario, { rehearsals })).toThrow(RangeError);
    expect(() => rehearse(scenario, { rehearsals })).toThrow(/whole number of 1 or more/u);
  });

  it("of a day that does not end none is finished: the reason comes out", () => {
    const absurd = { ...still, packing: { ...still.packing, whenBehind: "hold" as const }, storages: [bunker({ tractors: [blade(14_000, { rolling: 0 })] })] };
    expect(() => rehearse(absurd)).toThrow(/does not end/);
  });
});

describe("Confidence limits of the mean", () => {
  it("hold the true mean in about 95 of 100 studies", () => {
    // The mass of the first load is one draw with the known mean of 16 t: 200 studies of ten days each.
    const one = smallDay({ fields: [{ ...scenario.fields[0]!, area: 4000 }], variation: varying({ load: 0.037 }) });
    const studies = Array.from({ length: 200 }, (_, seed) => summarise(
      Array.from({ length: 10 }, (_, rehearsal) => rehearseDay(one, { seed, rehearsal }).trips[0]!.mass), "kg")!);
    const hits = studies.filter(({ low, high }) => low <= 16_000 && 16_000 <= high).length;
    // 200 studies hit with chance 0.95: standard deviation 3.1, four of them 12.3; a load's slight skew takes less than one more.
    expect(Math.abs(hits - 190)).toBeLessThanOrEqual(13);
  });
});
