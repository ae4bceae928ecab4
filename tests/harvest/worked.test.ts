/** The worked day under all four rules, against figures worked out beforehand and what each rule promises. */
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { storedIn } from "../../sim/findings/stored.ts";
import { LONGEST_DAY, rehearseDay } from "../../sim/harvest/day.ts";
import { BEHIND_RULES, type BehindRule } from "../../sim/scenario/types.ts";
import { blade, bunker, plan } from "./plan.ts";

const worked = (whenBehind: BehindRule) => {
  const scenario = plan({ packing: { whenBehind } });
  const day = rehearseDay(scenario);
  return { scenario, day, facts: factsOf(scenario, day), ...storedIn(day, scenario, 0) };
};
/** To half a unit of the last printed digit. */
const printed = (actual: number, figure: string) => expect(Math.abs(actual - Number(figure)), `${actual} against ${figure}`).toBeLessThanOrEqual(0.5 * 10 ** -(figure.split(".")[1]?.length ?? 0));

describe("The worked day: 30 ha at 45 t/ha, five trucks of 16 t, a blade of 14 t and a roller of 16 t", () => {
  it("packs 70.4 t/h at target, whatever the rule", () => {
    for (const rule of BEHIND_RULES) printed(worked(rule).facts.measures.packingRateAtTarget, "70.4");
  });

  it("under bury delivers 138.4 t/h and ends at 200.9 kg DM/m3 with the whole crop in", () => {
    const { day, facts } = worked("bury");
    printed(facts.measures.deliveryRate, "138.4");
    printed(facts.measures.dryDensity, "200.9");
    printed(facts.measures.delivered, "1350");
    expect(day.uncut).toEqual([0]);
    expect(facts.waits).toEqual({ hauling: 0, weighing: 0, tipping: 0, spreading: 0, packing: 0 });
    // Nothing queues behind the blade, so every lift is laid at the set layer, the last one too.
    expect(new Set(day.lifts.map((lift) => lift.layer))).toEqual(new Set([0.15]));
  });

  it("is cut at what the chopper can do by hand: 16 t in 360 s of cutting, 1.41 turns and a changeover, 138.7 t/h", () => {
    const seconds = 16_000 / ((160 * 1000) / 3600) + 25 * (16_000 / (6 * 420 * 4.5)) + 20;
    const { facts } = worked("bury");
    const bound = (16 * 3600) / seconds;
    printed(bound, "138.7");
    // The day loses to it half a percent at most: one turn, one changeover more or less, and the part load.
    expect(facts.measures.deliveryRate).toBeLessThanOrEqual(bound * 1.005);
    expect(facts.measures.deliveryRate).toBeGreaterThan(bound * 0.995);
  });

  it("under hold has every lift at 240 kg DM/m3, the last above, and the chopper pays by standing", () => {
    const { densities, facts, day } = worked("hold");
    const sorted = [...densities].sort((a, b) => a - b);
    expect(sorted[Math.floor(sorted.length / 2)]).toBeCloseTo(240, 6);
    for (const density of densities) expect(density).toBeGreaterThan(240 * (1 - 1e-9));
    expect(facts.measures.chopperWaitingOnStorage).toBeGreaterThan(0.4);
    expect(facts.waits.hauling).toBe(0);
    expect(day.uncut[0]).toBeGreaterThan(300_000);
    expect(facts.keepsPace).toBe(false);
  });

  it("under hold-then-bury delivers like bury, holds some lifts to the target and buries others far below", () => {
    const { densities, facts } = worked("hold-then-bury");
    expect(facts.measures.deliveryRate).toBeCloseTo(worked("bury").facts.measures.deliveryRate, 6);
    expect(densities.filter((density) => Math.abs(density - 240) < 1e-6).length).toBeGreaterThan(10);
    expect(densities.filter((density) => density < 160).length).toBeGreaterThan(10);
    // Thick layers cost more density than waiting wins.
    expect(facts.measures.dryDensity).toBeLessThan(worked("bury").facts.measures.dryDensity);
  });

  it("under ease has every lift at target, nobody standing, and keeps pace with what it can pack", () => {
    const { densities, facts } = worked("ease");
    for (const density of densities) expect(density).toBeGreaterThan(240 * (1 - 1e-9));
    expect(facts.measures.chopperWaiting).toBe(0);
    expect(facts.keepsPace).toBe(true);
    expect(facts.behindFrom).toBeNull();
  });

  it("falls behind under hold and bury with the same load, for debt does not depend on the rule", () => {
    expect(worked("hold").facts.behindFrom).not.toBeNull();
    expect(worked("hold").facts.behindFrom).toBe(worked("bury").facts.behindFrom);
  });
});

describe("An absurd day", () => {
  it("that would never close the clamp ends with a sentence that says what would help", () => {
    const absurd = plan({ packing: { whenBehind: "hold" }, targets: { dryDensity: 1000 }, storages: [bunker({ tractors: [blade(3000)] })] });
    expect(() => rehearseDay(absurd)).toThrow(RangeError);
    expect(() => rehearseDay(absurd)).toThrow(/"Worked day" does not end: after 30 days .* More packing tractors/);
    expect(LONGEST_DAY).toBe(30 * 86_400);
  });

  it("with a crew that never rolls under hold ends in the same way", () => {
    const idle = plan({ packing: { whenBehind: "hold" }, storages: [bunker({ tractors: [blade(14_000, { rolling: 0 })] })] });
    expect(() => rehearseDay(idle)).toThrow(/does not end/);
  });
});
