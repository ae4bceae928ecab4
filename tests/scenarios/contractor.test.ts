/** The contractor's corn day, without luck, with luck, and with a crew that keeps pace: each shows what its first line says. */
import { describe, expect, it } from "vitest";
import { storedIn } from "../../sim/findings/stored.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { altered, days, deliveredBetween, example, mean, median, off } from "./example.ts";
import { METRE_OF_FOOT, POUND_KG, TON_KG } from "./units.ts";

describe("the corn day without luck", () => {
  const scenario = example("contractor-corn-day");
  const { findings, day } = rehearse(scenario);
  const { measures, verdict } = findings;

  it("brings 138.4 t/h to the clamp, and buries it as fast", () => {
    expect(off(measures.deliveryRate!.mean, 138.4)).toBeLessThan(0.005);
    expect(measures.chopperWaitingOnStorage!.mean).toBe(0);
    expect(measures.delivered!.mean).toBeCloseTo(1350, 9);
  });

  it("stores it at 200.9 kg DM/m3 where 240 were wanted", () => {
    expect(off(measures.dryDensity!.mean, 200.9)).toBeLessThan(0.005);
    expect(measures.shareUnderTarget!.mean).toBeGreaterThan(0.99);
  });

  it("could pack 70.4 t/h at target, and is told behind within the first hour", () => {
    expect(Math.abs(measures.packingRateAtTarget!.mean - 70.4)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(verdict.paceKept - 70.4)).toBeLessThanOrEqual(0.05);
    expect(verdict).toMatchObject({ keepsPace: false, chance: 0, bottleneck: "packing" });
    expect(verdict.behindFrom! < "08:00").toBe(true);
  });

  it("gives by hand the mean density of its lifts, in the units the relation was published in", () => {
    // Muck & Holmes 2000: lb DM/ft3 = (8.5 + 0.0155 PF)(0.818 + 0.0136 D), PF = (W / L) sqrt(DM N / C). A load of 16 t comes every 16 / 138.44 h;
    // the blade pushes it for 16 / 220 h and rolls for the rest, the roller all the time. One turn or two fall into a load, so the time between
    // loads differs a little from lift to lift: the mean of a root lies a touch below the root of the mean. The last load
    // is a part load: what lies under it was buried sooner, and it got the finish.
    const between = 16 / measures.deliveryRate!.mean;
    const [roller, blade] = [between, between - 16 / 220];
    const meanMass = ((16_000 * roller + 14_000 * blade) / (roller + blade)) / POUND_KG;
    const hoursPerTon = ((roller + blade) / 16_000) * TON_KG;
    const factor = (meanMass / (15 / 2.54)) * Math.sqrt(0.34 * hoursPerTon);
    const byHand = (8.5 + 0.0155 * factor) * (0.818 + 0.0136 * (2.6 / METRE_OF_FOOT)) * (POUND_KG / METRE_OF_FOOT ** 3);
    expect(off(mean(storedIn(day, scenario, 0).densities.slice(0, -2)), byHand)).toBeLessThan(0.001);
  });
});

describe("the corn day without luck, no load buried before it is packed", () => {
  const scenario = altered("contractor-corn-day", "whenBehind: bury", "whenBehind: hold");
  const [{ day, facts }] = days(scenario, 1) as [ReturnType<typeof days>[number]];

  it("delivers in steady work what the crew packs at target, once the apron is full", () => {
    expect(off(deliveredBetween(day, 10, 20), facts.measures.packingRateAtTarget)).toBeLessThan(0.01);
    expect(off(facts.measures.packingRateAtTarget, 70.4)).toBeLessThan(0.001);
  });

  it("packs the median lift to 240 kg DM/m3", () => {
    expect(off(median(storedIn(day, scenario, 0).densities), 240)).toBeLessThan(0.001);
  });

  it("lets the chopper stand 44 % of its time, for packing, and a quarter of the crop in the field", () => {
    expect(facts.measures.chopperWaiting).toBeGreaterThan(0.42);
    expect(facts.measures.chopperWaiting).toBeLessThan(0.46);
    const { packing, hauling, weighing, tipping, spreading } = facts.waits;
    expect(packing / (packing + hauling + weighing + tipping + spreading)).toBeGreaterThan(0.5);
    expect(facts.uncut / 1_350_000).toBeGreaterThan(0.22);
    expect(facts.uncut / 1_350_000).toBeLessThan(0.27);
  });
});

describe("the corn day with luck", () => {
  const { findings } = rehearse(example("contractor-corn-day-living"), { rehearsals: 60 });
  const withoutLuck = rehearse(example("contractor-corn-day")).findings;

  it("comes out looser than without luck, and never keeps pace", () => {
    expect(findings.verdict).toMatchObject({ keepsPace: false, chance: 0, bottleneck: "packing" });
    expect(findings.measures.dryDensity!.high).toBeLessThan(withoutLuck.measures.dryDensity!.mean - 5);
    expect(findings.measures.packingRateAtTarget!.mean).toBeLessThan(0.9 * withoutLuck.measures.packingRateAtTarget!.mean);
  });

  it("keeps the luck of the day apart from the scatter of the relation, which is far wider", () => {
    const { ci, band } = findings.storages[0]!.dryDensity;
    expect(band[1] - band[0]).toBeGreaterThan(10 * (ci[1] - ci[0]));
  });
});

describe("the corn day with a crew that keeps pace", () => {
  const living = example("contractor-corn-day-living");
  const fixed = example("contractor-corn-day-fixed");
  const crewMass = ({ storages }: typeof fixed) => storages[0]!.tractors.reduce((sum, tractor) => sum + tractor.mass, 0);

  it("differs from the living day in crew and rule only", () => {
    const { fields, choppers, trucks, weighing, targets, shift, variation, crop } = living;
    expect(fixed).toMatchObject({ fields, choppers, trucks, weighing, targets, shift, variation, crop });
    expect({ ...fixed.storages[0], tractors: [] }).toEqual({ ...living.storages[0], tractors: [] });
  });

  it.each([1, 2, 3])("keeps pace on at least nine days of ten, seed %i", (seed) => {
    const { verdict, measures } = rehearse(fixed, { rehearsals: 100, seed }).findings;
    expect(verdict.chance).toBeGreaterThanOrEqual(0.9);
    expect(verdict.keepsPace).toBe(true);
    expect(measures.dryDensity!.low).toBeGreaterThan(240);
    expect(measures.chopperWaiting!.mean).toBeLessThan(0.05);
  });

  it("takes twice the tractor mass and about 1.50 more for each tonne, and still leaves the chance of the target near one half", () => {
    expect(crewMass(fixed) / crewMass(living)).toBe(2);
    const [dearer, was] = [days(fixed, 40), days(living, 40)].map((run) => run.map(({ facts }) => facts.measures.costPerTonne)) as [number[], number[]];
    const extra = mean(dearer.map((cost, i) => cost - was[i]!));
    expect(extra).toBeGreaterThan(1.25);
    expect(extra).toBeLessThan(1.75);
    const { chanceOfTarget } = rehearse(fixed, { rehearsals: 40 }).findings.storages[0]!.dryDensity;
    expect(chanceOfTarget).toBeGreaterThan(0.5);
    expect(chanceOfTarget).toBeLessThan(0.65);
  });
});
