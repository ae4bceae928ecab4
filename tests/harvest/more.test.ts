/** What more of something may never do. All on days without luck, breakdowns or breaks. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { storedIn } from "../../sim/findings/stored.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Scenario, Tractor } from "../../sim/scenario/types.ts";
import { anyDay, PATIENCE, RUNS } from "./generated.ts";
import { roller } from "./plan.ts";
import { sum } from "./reading.ts";

const plain = anyDay({ luck: true, breakdowns: true, breaks: true });
const oneOfEach = plain.map((scenario): Scenario => ({
  ...scenario, choppers: scenario.choppers.slice(0, 1), storages: scenario.storages.slice(0, 1), trucks: scenario.trucks.slice(0, 1), lane: null,
  fields: scenario.fields.map((field) => ({ ...field, storages: [0], chopper: null, area: field.area * 10 })),
}));
const under = (...rules: Scenario["packing"]["whenBehind"][]) => (scenario: Scenario) => rules.includes(scenario.packing.whenBehind);

const delivered = (scenario: Scenario) => sum(rehearseDay(scenario).trips.map((trip) => trip.mass));
const density = (scenario: Scenario) => {
  const { dryMass, volume } = storedIn(rehearseDay(scenario), scenario, 0);
  return dryMass / volume;
};
const withTruck = (scenario: Scenario): Scenario => ({ ...scenario, trucks: [{ ...scenario.trucks[0]!, count: scenario.trucks[0]!.count + 1 }] });
const withPlace = (scenario: Scenario): Scenario => ({ ...scenario, storages: [{ ...scenario.storages[0]!, tippingPlaces: scenario.storages[0]!.tippingPlaces + 1 }] });
const withCrew = (scenario: Scenario, tractors: readonly Tractor[]): Scenario => ({ ...scenario, storages: [{ ...scenario.storages[0]!, tractors }] });

const never = (days: fc.Arbitrary<Scenario>, less: (scenario: Scenario, mass: number) => [number, number]) =>
  fc.assert(fc.property(days, fc.integer({ min: 3000, max: 30_000 }), (scenario, mass) => {
    const [before, after] = less(scenario, mass);
    expect(after).toBeGreaterThan(before * (1 - 1e-9) - 1e-6);
  }), RUNS);

describe("With one chopper, one storage, identical trucks and no lane", () => {
  it("one more truck never delivers less", () => {
    never(oneOfEach, (scenario) => [delivered(scenario), delivered(withTruck(scenario))]);
  }, PATIENCE);

  // Not under hold-then-bury: with a tight apron a second place changes when a truck has to wait for room, and with it when the crew
  // goes back to holding; a crew that holds longer lets less in.
  it("one more tipping place never delivers less, unless the crew buries by the apron", () => {
    never(oneOfEach.filter(under("hold", "bury", "ease")), (scenario) => [delivered(scenario), delivered(withPlace(scenario))]);
  }, PATIENCE);
});

describe("Under bury", () => {
  it("one more packing tractor, however light, never lowers the density", () => {
    never(oneOfEach.filter(under("bury")), (scenario, mass) => [density(scenario), density(withCrew(scenario, [...scenario.storages[0]!.tractors, roller(mass)]))]);
  }, PATIENCE);

  it("half as much of every tractor never raises the density", () => {
    never(oneOfEach.filter(under("bury")), (scenario) => {
      const halved = scenario.storages[0]!.tractors.map((tractor) => ({ ...tractor, mass: tractor.mass / 2 }));
      return [density(withCrew(scenario, halved)), density(scenario)];
    });
  }, PATIENCE);

  it("a crew sent home but for its blade never leaves more density", () => {
    never(oneOfEach.filter(under("bury")), (scenario) => [density(withCrew(scenario, scenario.storages[0]!.tractors.slice(0, 1))), density(scenario)]);
  }, PATIENCE);
});

describe("Under hold", () => {
  it("one more packing tractor never delivers less", () => {
    never(oneOfEach.filter(under("hold")), (scenario, mass) => [delivered(scenario), delivered(withCrew(scenario, [...scenario.storages[0]!.tractors, roller(mass)]))]);
  }, PATIENCE);
});
