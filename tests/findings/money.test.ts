/** The account of the day: what each line is, and who pays it, by how the chopper's work is paid. */
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { fuelUsed } from "../../sim/findings/fuel.ts";
import { machineCost } from "../../sim/findings/money.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { MachineDay } from "../../sim/harvest/daylog.ts";
import { MORNING, type DayStart } from "../../sim/harvest/start.ts";
import type { PaidBy, Scenario } from "../../sim/scenario/types.ts";
import { stateAt } from "../harvest/noon.ts";
import { blade, bunker, chopper, field, HOUR, plan, roller, SEVEN, trucks } from "../harvest/plan.ts";
import { machine, madeDay, trip } from "./madeday.ts";

/** Ten hours of a chopper that stands for four of them, eight of two trucks, twelve of the crew. */
const attended = (kind: MachineDay["kind"], hours: number, over: Partial<MachineDay> = {}) => machine({ kind, until: SEVEN + hours * HOUR, seconds: {}, ...over });
const machines = (standing = 4) => [
  attended("chopper", 6 + standing, { name: "Chopper", mass: 500_000, seconds: { cutting: 6 * HOUR, waiting: standing * HOUR } }),
  attended("truck", 8), attended("truck", 8), attended("blade", 12), attended("roller", 12, { index: 1 }),
];
const scenario = (paid: PaidBy, over: Parameters<typeof plan>[0] = {}): Scenario => plan({
  choppers: [chopper({ paid, price: paid === "by-hour" ? 0 : 6, costPerHour: 400 })], trucks: [trucks(2, { costPerHour: 80 })],
  storages: [bunker({ tractors: [blade(14_000, { costPerHour: 95 }), roller(16_000, { costPerHour: 90 })] })], money: { labourPerHour: 25 }, ...over,
});
/** 500 t of a field of 12 ha with 40 t left standing. */
const day = (standing = 4) => madeDay({ until: 12 * HOUR, machines: machines(standing), trips: [trip({ tipFrom: 0, mass: 500_000 })], uncut: [40_000] });
const harvest = (plan: Scenario, standing = 4) => factsOf(plan, day(standing)).costs.filter((line) => line.stage === "harvest");
const amounts = (plan: Scenario, payer: "farm" | "contractor", standing = 4) =>
  Object.fromEntries(harvest(plan, standing).filter((line) => line.paidBy === payer).map((line) => [line.what, line.amount]));
const farmPays = (plan: Scenario, standing: number) => Object.values(amounts(plan, "farm", standing)).reduce((a, b) => a + b, 0);

describe("Paid by the hour", () => {
  it("every machine costs its rate for as long as it is there, and every driver with it", () => {
    expect(amounts(scenario("by-hour"), "farm")).toEqual({ Chopper: 4000, Trucks: 2 * 8 * 80, "Packing crew": 12 * 95 + 12 * 90, Drivers: 25 * (10 + 16 + 24) });
    expect(amounts(scenario("by-hour"), "contractor")).toEqual({});
  });

  it("a standing chopper costs the farm", () => {
    expect(farmPays(scenario("by-hour"), 4) - farmPays(scenario("by-hour"), 0)).toBeCloseTo(4 * (400 + 25), 6);
  });
});

describe("Paid by the tonne or the hectare", () => {
  it("the farm pays the price for what was cut", () => {
    expect(amounts(scenario("by-ton"), "farm").Chopper).toBeCloseTo(6 * 500, 9);
    // 500 of 540 t of the field's 12 ha.
    expect(amounts(scenario("by-area", { fields: [field({ area: 120_000 })] }), "farm").Chopper).toBeCloseTo(6 * 12 * (500 / 540), 9);
  });

  it.each(["by-ton", "by-area"] as const)("%s: a standing chopper costs the contractor, its driver and fuel too, and the farm nothing", (paid) => {
    const powered = scenario(paid, {
      choppers: [chopper({ paid, price: 6, costPerHour: 400, power: 450 })], trucks: [trucks(2, { power: 150 })],
      storages: [bunker({ tractors: [blade(14_000, { power: 200 }), roller(16_000, { power: 150 })] })],
    });
    expect(farmPays(powered, 4)).toBeCloseTo(farmPays(powered, 0), 6);
    const borne = (standing: number) => Object.values(amounts(powered, "contractor", standing)).reduce((a, b) => a + b, 0);
    expect(borne(4) - borne(0)).toBeCloseTo(4 * (400 + 25), 6);
    // Six hours of cutting with 450 kW at 0.223 L/h per kW, 1.40 a litre, are the contractor's as well.
    expect(amounts(powered, "contractor")["Chopper, its fuel"]).toBeCloseTo(6 * 450 * 0.223 * 1.4, 6);
  });

  it("two choppers, one each way, are each paid as agreed, an area by what each took off it", () => {
    const two = scenario("by-hour", { choppers: [chopper({ name: "A", paid: "by-area", price: 100 }), chopper({ name: "B", paid: "by-ton", price: 5 })], fields: [field({ area: 100_000 })] });
    const made = madeDay({
      until: HOUR, machines: [attended("chopper", 1, { name: "A", mass: 300_000 }), attended("chopper", 1, { name: "B", index: 1, mass: 100_000 })],
      trips: [trip({ tipFrom: 0, mass: 300_000 }), trip({ tipFrom: 10, mass: 100_000, chopper: 1 })], uncut: [0],
    });
    const costs = factsOf(two, made).costs.filter((line) => line.paidBy === "farm" && line.stage === "harvest");
    expect(Object.fromEntries(costs.map((line) => [line.what, line.amount]))).toMatchObject({ A: 100 * 7.5, B: 500 });
  });

  it("of a day that is taken up, only the area that is still to be cut is paid by the hectare", () => {
    const field18 = scenario("by-area", { fields: [field({ area: 180_000 })] });
    const noon = stateAt(field18, rehearseDay(field18), 10 * HOUR);
    const { taken } = noon.fields[0]!;
    const paid = (start: DayStart) => factsOf(field18, rehearseDay(field18, { start })).costs.find(({ what }) => what === "Chopper")!.amount;
    expect(taken).toBeGreaterThan(100_000);
    // Loads that were on the road by then were cut before.
    expect(noon.onTheRoad.length).toBeGreaterThan(0);
    expect(paid(noon)).toBeCloseTo(6 * 18 * (1 - taken / (180_000 * 4.5)), 6);
    // As the next day of a campaign begins: a quarter of the field is all that stands.
    expect(paid({ ...MORNING, fields: [{ taken: 1, left: 0.25 }] })).toBeCloseTo(6 * 18 * 0.25, 6);
  });
});

describe("Cost per tonne", () => {
  it("is what the farm pays for the day over what was delivered", () => {
    const { measures } = factsOf(scenario("by-hour"), day());
    expect(measures.costPerTonne).toBeCloseTo((4000 + 1280 + 2220 + 1250) / 500, 9);
  });

  it("of one machine is its rate and its hours, whoever pays", () => {
    expect([0, 1, 3, 4].map((id) => machineCost(scenario("by-ton"), day(), id))).toEqual([4000, 640, 1140, 1080]);
  });
});

describe("Fuel", () => {
  const powers = (power: number | null) => scenario("by-hour", {
    choppers: [chopper({ power: 450 })], trucks: [trucks(2, { power: 150 })], storages: [bunker({ tractors: [blade(14_000, { power: 200 }), roller(16_000, { power })] })],
  });
  const made = madeDay({
    until: HOUR, machines: [
      attended("chopper", 1, { seconds: { cutting: 1800, waiting: 1800 } }), attended("truck", 1, { seconds: { "loaded-road": 900, "scale-line": 2700 } }),
      attended("blade", 1, { seconds: { pushing: 1200, rolling: 600, standing: 1800 } }), attended("roller", 1, { index: 1, seconds: { rolling: 3000, break: 600 } }),
    ],
  });

  it("is 0.223 L/h per kW (EP496.3) in the hours in which the engine works", () => {
    expect(fuelUsed(powers(160), made)).toBeCloseTo(0.223 * (450 * 0.5 + 150 * 0.25 + 200 * 0.5 + 160 * (5 / 6)), 9);
  });

  it("is no figure unless the power of every machine is known, and then nobody is charged for it", () => {
    expect(fuelUsed(powers(null), made)).toBeNull();
    expect(factsOf(powers(null), made).measures.fuel).toBeNaN();
    expect(factsOf(powers(null), made).costs.some((line) => /fuel/i.test(line.what))).toBe(false);
  });
});
