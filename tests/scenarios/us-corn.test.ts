/** A US dairy's day, written in US units throughout. */
import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { example, exampleText, off } from "./example.ts";
import { KG_PER_M3_OF_LB_PER_FT3, METRE_OF_FOOT, METRE_OF_MILE, POUND_KG, SQUARE_METRE_OF_ACRE, TON_KG } from "./units.ts";

const scenario = example("us-corn-150-acres");
const { measures, verdict, handCheck, storages } = rehearse(scenario, { rehearsals: 60 }).findings;

describe("150 acres in US units", () => {
  it("has no metric unit in the file", () => {
    const written = exampleText("us-corn-150-acres").replaceAll(/#.*$|^name:.*$/gm, "");
    const units = [...written.matchAll(/\d (?!per\b)([a-zA-Z%][\w/]*)/g)].map((match) => match[1]!);
    const us = ["acre", "ton/acre", "mi", "ft", "mph", "ton/h", "ton", "lb", "in", "lb/ft3", "hp", "lb/day"];
    const common = ["%", "s", "min"];
    expect(units.length).toBeGreaterThan(40);
    expect(units.filter((unit) => ![...us, ...common].includes(unit))).toEqual([]);
    expect(written).toContain("per gal");
    expect(written).toContain("per ton");
  });

  it("means in SI what it says: 150 acre of 22 ton/acre, six semis of 22 ton, a push tractor of 45,000 lb, 15 lb DM/ft3", () => {
    const area = scenario.fields.reduce((sum, field) => sum + field.area, 0);
    const crop = scenario.fields.reduce((sum, field) => sum + field.area * field.yield, 0);
    expect(off(area, 150 * SQUARE_METRE_OF_ACRE)).toBeLessThan(1e-9);
    expect(off(crop, 3300 * TON_KG)).toBeLessThan(1e-9);
    expect(scenario.trucks[0]).toMatchObject({ count: 6 });
    expect(off(scenario.trucks[0]!.load, 22 * TON_KG)).toBeLessThan(1e-9);
    expect(off(scenario.storages[0]!.tractors[0]!.mass, 45_000 * POUND_KG)).toBeLessThan(1e-9);
    expect(off(scenario.fields[0]!.distance, 3 * METRE_OF_MILE)).toBeLessThan(1e-9);
    expect(off(scenario.storages[0]!.width, 80 * METRE_OF_FOOT)).toBeLessThan(1e-9);
    expect(off(scenario.targets.dryDensity, 15 * KG_PER_M3_OF_LB_PER_FT3)).toBeLessThan(1e-9);
    expect(scenario.crop.dryMatter).toBeCloseTo(0.34, 12);
  });

  it("packs about nine tenths of what is cut and ends about half a pound short of 15 lb DM/ft3, without holding a truck", () => {
    const cutting = handCheck.find(({ station }) => station === "cutting")!.boundTPerH;
    expect(verdict.paceKept / cutting).toBeGreaterThan(0.88);
    expect(verdict.paceKept / cutting).toBeLessThan(0.96);
    expect(verdict).toMatchObject({ keepsPace: false, bottleneck: "packing" });
    const short = 15 - storages[0]!.dryDensity.mean / KG_PER_M3_OF_LB_PER_FT3;
    expect(short).toBeGreaterThan(0.3);
    expect(short).toBeLessThan(0.7);
    expect(measures.chopperWaitingOnStorage!.mean).toBeLessThan(0.01);
  });

  it("burns fuel in the measure of such machines: 2 to 5 litres a tonne for chopping, hauling and packing together", () => {
    const perTonne = measures.fuel!.mean / measures.delivered!.mean;
    expect(perTonne).toBeGreaterThan(2);
    expect(perTonne).toBeLessThan(5);
  });
});
