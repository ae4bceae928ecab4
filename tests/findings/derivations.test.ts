/** Where each figure comes from: complete for every measure, and true when redone by hand from what it states. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { derivationsOf } from "../../sim/findings/derivations.ts";
import { METRIC_RELATION } from "../../sim/findings/derivations/relation.ts";
import { MEASURES, type Derivation, type MeasureName } from "../../sim/findings/types.ts";
import { dryDensityOf, explainedShare, RELATION } from "../../sim/forage/packing.ts";
import { solidDensity, waterDensity } from "../../sim/forage/porespace.ts";
import { FOOT, INCH, POUND, US_TON } from "../../sim/forage/us.ts";
import { factsOf } from "../../sim/findings/facts.ts";
import { measuresOf } from "../../sim/findings/findings.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { BEHIND_RULES, type Scenario } from "../../sim/scenario/types.ts";
import { stateAt } from "../harvest/noon.ts";
import { LONG_STRIP, rehearsed, sound, withFacts } from "./rehearsed.ts";

/** The number at the head of a stated input. */
const read = (derivation: Derivation, input: string): number => {
  const words = derivation.inputs[input];
  if (words === undefined) throw new Error(`no input "${input}" among ${Object.keys(derivation.inputs).join(", ")}`);
  return Number.parseFloat(words.replaceAll(/(\d),(?=\d{3})/g, "$1"));
};
/** h after midnight of a stated clock. */
const clock = (derivation: Derivation, input: string): number => {
  const [h, m] = derivation.inputs[input]!.split(":").map(Number);
  return h! + m! / 60;
};
const sumOf = (derivation: Derivation, ...inputs: string[]) => inputs.reduce((sum, input) => sum + read(derivation, input), 0);

/** The formulas of the derivations, written down once more by hand, from their own words. */
const BY_HAND: Partial<Record<MeasureName, (d: Derivation) => number>> = {
  delivered: (d) => read(d, "loads") * read(d, "mean load"),
  deliveryRate: (d) => (read(d, "delivered") - read(d, "first load")) / read(d, "first tip to last tip"),
  loadsPerHour: (d) => (read(d, "loads") - 1) / read(d, "first tip to last tip"),
  packingRateAtTarget: (d) => read(d, "load") / read(d, "t*"),
  packingTimePerTonne: (d) => read(d, "rolling by all tractors") / read(d, "fresh mass laid"),
  dryDensity: (d) => (1000 * read(d, "dry matter stored")) / read(d, "volume"),
  wetDensity: (d) => (1000 * read(d, "fresh mass stored")) / read(d, "volume"),
  poreSpace: (d) => 1 - read(d, "dry density") / solidDensity.value - ((1 - read(d, "DM")) * read(d, "wet density")) / waterDensity.value,
  shareUnderTarget: (d) => read(d, "mass in lifts under target") / read(d, "fresh mass stored"),
  dryMatterStored: (d) => read(d, "fresh mass laid") * read(d, "dry matter"),
  chopperWaiting: (d) => read(d, "waiting") / sumOf(d, "cutting", "turning", "changeover", "waiting"),
  chopperCutting: (d) => read(d, "cutting") / sumOf(d, "cutting", "turning", "changeover", "waiting"),
  chopperWaitingOnStorage: (d) => sumOf(d, "weighing", "tipping", "spreading", "packing") / read(d, "time in the field"),
  fuel: (d) => read(d, "burn") * read(d, "rated power x working time, all machines"),
  costPerTonne: (d) => sumOf(d, ...Object.keys(d.inputs).filter((input) => input !== "delivered")) / read(d, "delivered"),
};

const RULES = BEHIND_RULES.map((whenBehind) => [whenBehind, sound({ ...LONG_STRIP, packing: { ...LONG_STRIP.packing, whenBehind } })] as const);
const [BLADE, ROLLER] = LONG_STRIP.packing.tractors;
const TWO_PLACES = {
  ...LONG_STRIP,
  packing: { tractors: [BLADE, ROLLER, { ...BLADE, name: "Second blade" }, { ...ROLLER, name: "Second roller" }] },
  storage: [
    { name: "North", form: "bunker", width: "6 m", length: "20 m", height: "1.5 m", tractors: ["Blade", "Roller"] },
    { name: "South", form: "pile", width: "16 m", length: "40 m", height: "2 m", tractors: ["Second blade", "Second roller"] },
  ],
  fields: [{ ...LONG_STRIP.fields[0], storage: ["North", "South"] }],
};

describe("Derivations", () => {
  it("of a day that was taken up later count its hours from then, and say so", () => {
    const scenario = sound(LONG_STRIP);
    const noon = 9 * 3600;
    const day = factsOf(scenario, rehearseDay(scenario, { start: stateAt(scenario, rehearseDay(scenario), noon) }));
    const measures = measuresOf([day]);
    const { finishedAt } = derivationsOf(scenario, [day], measures);
    expect(finishedAt!.inputs["taken up at"]).toBe("09:00");
    expect(clock(finishedAt!, "last lift closed") - clock(finishedAt!, "taken up at")).toBeCloseTo(measures.finishedAt!.mean, 1);
    expect(finishedAt!.inputs).not.toHaveProperty("shift start");
  });

  it("stand beside every measure that is there, with formula, inputs, source and mark, and beside no other", () => {
    for (const scenario of [...RULES.map(([, scenario]) => scenario), sound(TWO_PLACES), sound({ ...LONG_STRIP, variation: "typical" })]) {
      const [, days, measures] = rehearsed(scenario, 3);
      const sources = derivationsOf(scenario, days, measures);
      expect(Object.keys(sources).sort()).toEqual(Object.keys(measures).sort());
      for (const [name, derivation] of Object.entries(sources)) {
        for (const words of [derivation.formula, derivation.source, derivation.mark, ...Object.values(derivation.inputs)]) expect(words, name).toMatch(/\S/);
        expect(Object.keys(derivation.inputs).length, name).toBeGreaterThan(0);
        expect(Object.values(derivation.inputs).join(), name).not.toMatch(/NaN|Infinity|undefined|not known/);
      }
    }
  });

  it("can be written for every measure there is, those that the rehearsal does not give yet among them", () => {
    const [scenario, days] = rehearsed(sound(LONG_STRIP));
    const flat = { mean: 10, sd: 0, low: 10, high: 10, p10: 10, p90: 10 };
    const all = Object.fromEntries(Object.entries(MEASURES).map(([name, unit]) => [name, { ...flat, unit }]));
    const sources = derivationsOf(scenario, days, { ...all, dryMatterStored: { ...flat, mean: 12, unit: "t" } });
    expect(Object.keys(sources).sort()).toEqual(Object.keys(MEASURES).sort());
    expect(read(sources.dryMatterFed!, "lost by all lines")).toBeCloseTo(2, 9);
    expect(read(sources.costPerTonneFed!, "whole cost") / read(sources.costPerTonneFed!, "dry matter fed")).toBeCloseTo(10, 9);
  });

  it.each(RULES)("give the figure within rounding when redone by hand from the stated inputs, rule %s", (_rule, scenario) => {
    const [, days, measures] = rehearsed(scenario);
    const sources = derivationsOf(scenario, days, measures);
    for (const [name, redo] of Object.entries(BY_HAND) as [MeasureName, (d: Derivation) => number][]) {
      const figure = measures[name]!.mean;
      // Inputs carry five digits, up to eight of them go into one formula; pore space takes a difference of figures near 1.
      const rounding = Math.max(8 * 5e-5 * Math.abs(figure), name === "poreSpace" ? 1e-4 : 1e-9);
      expect(Math.abs(redo(sources[name]!) - figure), `${name}: ${redo(sources[name]!)} by hand, ${figure} in the findings`).toBeLessThanOrEqual(rounding);
    }
  });

  it("state clocks that lie as far apart as the fill time and the finish say, to the minute", () => {
    const [scenario, days, measures] = rehearsed(sound(LONG_STRIP));
    const { fillTime, finishedAt } = derivationsOf(scenario, days, measures);
    expect(Math.abs(clock(fillTime!, "last lift closed") - clock(fillTime!, "first tip") - measures.fillTime!.mean)).toBeLessThanOrEqual(1 / 60);
    expect(Math.abs(clock(finishedAt!, "last lift closed") - clock(finishedAt!, "shift start") - measures.finishedAt!.mean)).toBeLessThanOrEqual(1 / 60);
  });

  it("take the first load and the span of the tips from the day's own trips", () => {
    const [scenario, days, measures] = rehearsed(sound({ ...LONG_STRIP, variation: "typical" }));
    const trips = rehearseDay(scenario).trips.filter((trip) => !Number.isNaN(trip.tipped)).sort((a, b) => a.tipFrom - b.tipFrom);
    const derivation = derivationsOf(scenario, days, measures).deliveryRate!;
    expect(read(derivation, "first load")).toBeCloseTo(trips[0]!.mass / 1000, 2);
    expect(read(derivation, "first tip to last tip")).toBeCloseTo((trips.at(-1)!.tipFrom - trips[0]!.tipFrom) / 3600, 3);
  });

  it("say how many rehearsals went into a mean, and nothing of it for a single day", () => {
    const scenario = sound({ ...LONG_STRIP, variation: "typical" });
    for (const [rehearsals, said] of [[1, undefined], [3, /^3;/]] as const) {
      const [, days, measures] = rehearsed(scenario, rehearsals);
      const { rehearsals: words } = derivationsOf(scenario, days, measures).delivered!.inputs;
      if (said === undefined) expect(words).toBeUndefined();
      else expect(words).toMatch(said);
    }
  });

  it("name the storage of each input where there are several, and add the storages up", () => {
    const [scenario, days, measures] = rehearsed(sound(TWO_PLACES));
    expect(days[0]!.storages.every((storage) => storage.mass > 0)).toBe(true);
    const derivation = derivationsOf(scenario, days, measures).packingRateAtTarget!;
    const byHand = ["North", "South"].reduce((sum, name) => sum + read(derivation, `load, ${name}`) / read(derivation, `t*, ${name}`), 0);
    expect(Math.abs(byHand / measures.packingRateAtTarget!.mean - 1)).toBeLessThan(2e-4);
  });

  it("set what the handbook knows beside the share of chopping, the round of a truck and the choppers' fuel", () => {
    const [scenario, days, measures] = rehearsed(sound(LONG_STRIP));
    const { chopperCutting, truckCycle, fuel } = derivationsOf(scenario, days, measures);
    expect(chopperCutting!.inputs["usual field efficiency of a forage harvester"]).toMatch(/^60 % to 85 %, 70 % as a rule \(ASABE D497.*from memory\)$/);
    expect(truckCycle!.inputs["on the road, loaded and empty"]).toMatch(/^Tipper 28 and 34 km\/h$/);
    expect(truckCycle!.inputs["means measured on crop transport"]).toMatch(/^27\.4 km\/h .*, 24 km\/h .*, 42 km\/h .*published\)$/);
    // 0.223 L an hour for each kW while it cuts, turns and moves; 0.6 L for each tonne that it cut.
    const { power } = scenario.choppers[0]!;
    const { cutting = 0, turning = 0, changeover = 0, moving = 0 } = days[0]!.machines[0]!.seconds;
    const [, byPower, byMass] = /^([\d.]+) L; at about 0\.6 L\/t they would burn ([\d.]+) L \(time study/.exec(fuel!.inputs["of it, the choppers"]!)!;
    expect(Number(byPower) / ((0.223 * power! * (cutting + turning + changeover + moving)) / 3600)).toBeCloseTo(1, 4);
    expect(Number(byMass) / (0.6 * measures.delivered!.mean)).toBeCloseTo(1, 4);
    expect(Number(byPower)).toBeLessThan(measures.fuel!.mean);
  });

  it("call a count of the rehearsal simulated and give it no other source", () => {
    const [scenario, days, measures] = rehearsed(sound(LONG_STRIP));
    const sources = derivationsOf(scenario, days, measures);
    for (const name of ["delivered", "loads", "truckWaiting", "truckCycle", "apronPeak", "apronMean", "fillTime", "chopperCutting"] as const) {
      expect(sources[name]).toMatchObject({ source: "this rehearsal", mark: "simulated", range: null, outside: false });
      expect(sources[name]!.formula).toMatch(/^simulated: .*\((tables? of|state totals)/);
    }
  });
});

describe("The derivation of density", () => {
  const [scenario, days, measures] = rehearsed(sound(LONG_STRIP));

  it("carries the relation, its mark, the survey's range, the share it explains and the scatter it leaves", () => {
    const derivation = derivationsOf(scenario, days, measures).dryDensity!;
    expect(derivation).toMatchObject({ source: RELATION.source, mark: "published, figure from memory", outside: false });
    expect(derivation.formula).toContain(RELATION.formula);
    expect(derivation.range).toContain(`${RELATION.range[0]} to ${RELATION.range[1]}`);
    expect(Object.values(derivation.inputs).join("; ")).toContain(`${100 * explainedShare.value} %`);
    // 2.9 lb/ft3 x sqrt(1 - 0.182) is about 42 kg DM/m3, the survey's corn.
    expect(read(derivation, "standard deviation between storages packed alike")).toBeCloseTo(42, 0);
  });

  it("prints the relation in metric form with the digits of the published one", () => {
    const [a, b, c, d] = METRIC_RELATION.match(/\d+\.\d+/g)!.map(Number) as [number, number, number, number];
    fc.assert(fc.property(
      fc.double({ min: 4000, max: 30_000, noNaN: true }), fc.double({ min: 0.05, max: 0.4, noNaN: true }), fc.double({ min: 0.2, max: 0.6, noNaN: true }),
      fc.double({ min: 0.001, max: 0.2, noNaN: true }), fc.double({ min: 0.3, max: 8, noNaN: true }),
      (mass, layer, dryMatter, hoursPerTonne, depth) => {
        const byHand = (a + b * (mass / (100 * layer)) * Math.sqrt(dryMatter * hoursPerTonne)) * (c + d * depth);
        // One tractor rolling E hours on each tonne of a lift of 10 t.
        const seconds = hoursPerTonne * 10 * 3600;
        expect(Math.abs(byHand / dryDensityOf(mass * Math.sqrt(seconds), 10_000, dryMatter, layer, depth) - 1)).toBeLessThan(2e-5);
      }));
    // 40,000 lb, 6 in, one tractor, 35 % dry matter, 50 ton/h, 12 ft: 269.5 kg DM/m3 by the published form.
    const hours = 1 / ((50 * US_TON) / 1000);
    expect((a + b * ((40_000 * POUND) / (6 * INCH * 100)) * Math.sqrt(0.35 * hours)) * (c + d * 12 * FOOT)).toBeCloseTo(269.5, 1);
  });

  it("says so when a storage, or the target, lies outside what the survey found", () => {
    for (const [density, outside] of [[105, true], [107, false], [433, false], [435, true]] as const) {
      const sources = derivationsOf(scenario, withFacts(days, { dryDensity: density }), measures);
      for (const name of ["dryDensity", "wetDensity", "poreSpace", "shareUnderTarget"] as const) expect(sources[name]!.outside, `${name} at ${density}`).toBe(outside);
    }
    for (const [target, outside] of [[240, false], [450, true]] as const) {
      const asked: Scenario = { ...scenario, targets: { ...scenario.targets, dryDensity: target } };
      const sources = derivationsOf(asked, days, measures);
      for (const name of ["packingRateAtTarget", "debtPeak", "packingIdle"] as const) expect(sources[name]!.outside).toBe(outside);
    }
  });

  it("tells a reader that the layer term is off, and which layer the relation sees instead", () => {
    const thin = sound({ ...LONG_STRIP, packing: { ...LONG_STRIP.packing, layer: "10 cm", layerTerm: "off" } });
    const words = derivationsOf(...rehearsed(thin)).dryDensity!.inputs["L, as set"];
    expect(words).toMatch(/^10 cm; the layer term is off and the relation sees 15 cm/);
    expect(derivationsOf(scenario, days, measures).dryDensity!.inputs["L, as set"]).toBe("15 cm");
  });
});
