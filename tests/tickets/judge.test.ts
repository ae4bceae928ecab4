import { mean, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { withoutStops } from "../../sim/study/tickets/explain.ts";
import { judge, stoppagesOf, type Judgement } from "../../sim/study/tickets/judge.ts";
import { JUDGED_NAMES, judgedOf } from "../../sim/study/tickets/judged.ts";
import { measureDay, weighingsOf, type Weighing } from "../../sim/study/tickets/loads.ts";
import { tickets } from "../../sim/study/tickets/study.ts";
import { carryOut, carryOutOn } from "../../sim/study/work.ts";
import { contraryHands } from "../study/hands.ts";
import { EVENING, EVENING_LOAD, eveningText, MEADOW, STOP, stopText } from "./sets.ts";

/** A day as the scale saw it, with another luck than the judge's. */
const dayOf = (scenario: Scenario, rehearsal = 0, seed = 77): Weighing[] => weighingsOf(rehearseDay(scenario, { seed, rehearsal }));
const judged = (recorded: readonly Weighing[], scenario = MEADOW, rehearsals = 60): Judgement => carryOut(judge(scenario, recorded, { rehearsals }));
const last = (judgement: Judgement) => judgement.inWords.at(-1)!;
const changedTrucks = (change: Partial<Scenario["trucks"][number]>): Scenario => ({ ...MEADOW, trucks: MEADOW.trucks.map((kind) => ({ ...kind, ...change })) });
const paced = (share: number): Scenario => ({ ...MEADOW, choppers: MEADOW.choppers.map((chopper) => ({ ...chopper, speed: chopper.speed * share, throughput: chopper.throughput * share })) });

describe("The set with the hidden stoppage", () => {
  const { judgement } = carryOut(tickets(MEADOW, { csv: stopText(), rehearsals: 100 }));

  it("shows the stop in time and length to whoever was not told of it, and no other", () => {
    expect(judgement.stoppages).toHaveLength(1);
    const [{ from, to, worked, onDays, inWords }] = judgement.stoppages as [NonNullable<Judgement["stoppages"]>[number]];
    expect(onDays).toBe(0);
    expect(inWords).toBe("Between 09:16 and 10:09 nothing was weighed; none of 100 rehearsed days has a stretch that long.");
    // The stretch begins with the last load before the stop and ends with the first after it: the usual time between two loads belongs to it.
    const usual = measureDay(dayOf(MEADOW)).between!.mean * 60;
    expect(from).toBeLessThanOrEqual(STOP.at);
    expect(to).toBeGreaterThanOrEqual(STOP.at + STOP.for);
    expect(Math.abs(worked - usual - STOP.for)).toBeLessThan(usual);
  });

  it("is explained by the stop better than by any input", () => {
    expect(judgement.explained[0]).toMatchObject({ input: "stop" });
    expect(judgement.explained[0]!.closes).toBeGreaterThan(2 * judgement.explained[1]!.closes);
    expect(last(judgement)).toContain("Best explained by the stop from 09:16 to 10:09");
  });

  it("lies outside the band in the figures that a stop moves, and inside in the time at the storage", () => {
    const { tonnesPerHour, cycle, longest, stay } = judgement.figures;
    expect([tonnesPerHour!.inside, cycle!.inside, longest!.inside, stay!.inside]).toEqual([false, false, false, true]);
    expect([tonnesPerHour!.recorded < tonnesPerHour!.low, cycle!.recorded > cycle!.high]).toEqual([true, true]);
    const hour = judgement.hours.find(({ from }) => from === 9 * 3600)!;
    expect(hour.recorded).toBeLessThan(hour.low);
  });
});

describe("The ordinary evening", () => {
  const { judgement, patch } = carryOut(tickets(EVENING, { csv: eveningText(), decimal: "comma", rehearsals: 100 }));

  it("has no stretch to tell of, past midnight and all", () => {
    expect(judgement.stoppages).toEqual([]);
    expect(judgement.figures.finish!.inside).toBe(true);
  });

  it("is explained by the loads that were lighter than the file says, and the patch says how heavy", () => {
    expect(judgement.explained[0]).toMatchObject({ input: "load" });
    const load = patch.changes.find(({ path }) => path.join() === "trucks,0,load")!;
    const weighed = Number(/^[\d.]+(?= t$)/u.exec(load.value as string)![0]);
    // The mean of n loads: four standard errors, by the spread that the file gives for a load.
    const { load: shape } = EVENING.variation;
    const cv = shape && "cv" in shape ? shape.cv : 0;
    expect(Math.abs(weighed * 1000 - EVENING_LOAD)).toBeLessThan((4 * cv * EVENING_LOAD) / Math.sqrt(load.n) + 5);
  });
});

describe("A stretch without a load", () => {
  it.each([["a morning", MEADOW], ["an evening past midnight", EVENING]] as const)("is called unusual on about 2 of 100 ordinary days, as is told: %s", (_, scenario) => {
    const rehearsed = Array.from({ length: 100 }, (_day, rehearsal) => dayOf(scenario, rehearsal, 1));
    const alarms = Array.from({ length: 100 }, (_day, rehearsal) => stoppagesOf(dayOf(scenario, rehearsal, 2), rehearsed, scenario).length).filter((count) => count > 0).length;
    // The second longest of 100 days is passed by a new day with a chance that is Beta(2, 99): over 100 days the count is, all but exactly, negative
    // binomial with two successes of one half each, mean 2; more than 12 come about once in a thousand times.
    expect(alarms).toBeLessThanOrEqual(12);
    expect(judged(dayOf(scenario), scenario, 100).falseAlarms).toBeCloseTo(2 / 101, 12);
  });

  it("of the shift's own break is none", () => {
    const noon = { at: 9 * 3600, for: 2700 };
    const resting = { ...MEADOW, shift: { ...MEADOW.shift, breaks: [noon] } };
    const rehearsed = Array.from({ length: 50 }, (_, rehearsal) => dayOf(resting, rehearsal, 1));
    expect(stoppagesOf(dayOf(resting), rehearsed, resting)).toEqual([]);
    expect(stoppagesOf(dayOf(resting), rehearsed, MEADOW)).toEqual([]);
    const without = Array.from({ length: 50 }, (_, rehearsal) => dayOf(MEADOW, rehearsal, 1));
    expect(stoppagesOf(dayOf(resting), without, MEADOW)).toHaveLength(1);
  });

  it("is not told of when too few days were rehearsed to tell, and that is said", () => {
    const few = judged(dayOf(MEADOW), MEADOW, 10);
    expect([few.stoppages, few.falseAlarms]).toEqual([null, null]);
    expect(few.inWords.join(" ")).toContain("With fewer than 50 rehearsed days no stretch can be called unusual.");
  });

  it("is taken out of a day whole: the day without its stop is the day as it would have been", () => {
    const before = dayOf(MEADOW);
    const at = before[12]!.at;
    const late = before.map((weighing) => (weighing.at > at ? { ...weighing, at: weighing.at + 3000, out: weighing.out! + 3000 } : weighing));
    const gap = before[13]!.at - at;
    const again = withoutStops(late, [{ from: at, to: before[13]!.at + 3000, worked: gap + 3000, onDays: 0, inWords: "" }], gap);
    again.forEach((weighing, i) => expect(weighing.at).toBeCloseTo(before[i]!.at, 6));
  });

  it("is taken out of a day in hours of work: the shift's own break stays where it is, and whoever stood at the storage all that time stood there as long as usual", () => {
    const [hour, pause] = [3600, { at: 12 * 3600, for: 1800 }];
    const load = (at: number, out: number): Weighing => ({ truck: "A", at, out, mass: 15_000 });
    const stop = { from: 9 * hour, to: 10 * hour, worked: hour, onDays: 0, inWords: "" };
    const recorded = [load(8.5 * hour, 8.5 * hour + 240), load(9 * hour, 9 * hour + 3000), load(10 * hour, 10 * hour + 240), load(12 * hour - 60, 12 * hour + 2040), load(14 * hour, 14 * hour + 240)];
    const without = withoutStops(recorded, [stop], 600, [pause]);
    expect(without.map(({ at }) => at)).toEqual([8.5 * hour, 9 * hour, 9 * hour + 600, 11 * hour + 540, 13 * hour + 600]);
    expect(without.map(({ at, out }) => out! - at)).toEqual([240, 240, 240, 300, 240]);
  });

  it("explains most of a day that everybody stood still on, wherever the trucks stood and whatever break the shift has", () => {
    const stood = { ...MEADOW, shift: { ...MEADOW.shift, breaks: [{ at: 9.2 * 3600, for: 2400 }, ...MEADOW.shift.breaks] } };
    for (const rehearsal of [0, 1, 2]) {
      const { explained, inWords } = judged(dayOf(stood, rehearsal), MEADOW, 100);
      expect(explained[0]).toMatchObject({ input: "stop" });
      expect(explained[0]!.closes, inWords.join("\n")).toBeGreaterThan(0.95);
    }
  });
});

describe("What would explain a day that is off", () => {
  it("is the chopper's pace where the chopper was slower", () => {
    const judgement = judged(dayOf(paced(0.7)));
    expect(judgement.explained[0]).toMatchObject({ input: "pace", what: "a chopper at 70 % of the pace in the plan" });
    expect(last(judgement)).toContain("Best explained by a chopper at 70 % of the pace in the plan");
  });

  it("is the number of trucks where some stayed away", () => {
    const judgement = judged(dayOf(changedTrucks({ count: 2 })));
    expect(judgement.explained[0]).toMatchObject({ input: "trucks", what: "2 trucks, as on the tickets" });
  });

  it("is the time to tip where the times at the storage are off", () => {
    expect(judged(dayOf(changedTrucks({ tip: MEADOW.trucks[0]!.tip * 1.4 }))).explained[0]).toMatchObject({ input: "tip" });
  });

  it("is nothing that was tried where several things were other at once, and that is said", () => {
    const both = { ...paced(0.6), trucks: MEADOW.trucks.map((kind) => ({ ...kind, load: kind.load * 0.6, tip: kind.tip * 2.5 })) };
    expect(last(judged(dayOf(both)))).toMatch(/^No one input that was tried explains it.*Several may be wrong at once/u);
  });

  it("is not asked where the day lies inside what was rehearsed", () => {
    const days = Array.from({ length: 20 }, (_, rehearsal) => measureDay(dayOf(MEADOW, rehearsal), MEADOW.shift.breaks));
    const far = days.map((day) => Math.max(...JUDGED_NAMES.map((name) => {
      const values = days.map((each) => judgedOf(name, each));
      return Math.abs(judgedOf(name, day) - mean(values)) / sampleStandardDeviation(values);
    })));
    const judgement = judged(dayOf(MEADOW, far.indexOf(Math.min(...far))));
    expect(judgement.explained).toEqual([]);
    expect(judgement.inWords).toEqual(["The recorded day lies inside what the rehearsed days show."]);
  });
});

describe("A judgement", () => {
  it("needs two tickets", () => {
    expect(() => judged(dayOf(MEADOW).slice(0, 1))).toThrow("A day of fewer than two tickets cannot be held against the model.");
  });

  it("says of a scenario without luck that no band is known, and puts the figures side by side", () => {
    const still: Scenario = { ...MEADOW, variation: { cutting: null, load: null, loaded: null, empty: null, weighing: null, tip: null, spread: null, yield: null } };
    const judgement = carryOut(judge(still, dayOf(still)));
    expect(judgement.rehearsals).toBe(1);
    expect(judgement.inWords[0]).toContain("has no luck in it");
    for (const { recorded, predicted, inside } of Object.values(judgement.figures)) expect([recorded, inside]).toEqual([predicted, null]);
  });

  it("is the same on any hands", async () => {
    const recorded = dayOf(paced(0.8));
    const there = await carryOutOn(contraryHands(3).hands, judge(MEADOW, recorded, { rehearsals: 12 }));
    expect(there).toEqual(carryOut(judge(MEADOW, recorded, { rehearsals: 12 })));
  });
});
