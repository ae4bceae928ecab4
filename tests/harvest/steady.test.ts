/** Steady work without variation, against the closed forms it must give. */
import { describe, expect, it } from "vitest";
import { storedIn } from "../../sim/findings/stored.ts";
import { packingRateAtTarget } from "../../sim/findings/hand.ts";
import { densityUS, packingFactorUS } from "../../sim/forage/packing.ts";
import { FOOT, INCH, LB_PER_FT3, POUND, US_TON } from "../../sim/forage/us.ts";
import type { Day, Lift } from "../../sim/harvest/daylog.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { blade, bunker, chopper, plan, roller, trucks } from "./plan.ts";
import { sum } from "./reading.ts";

const T_PER_H = 1000 / 3600;

/** The middle half of the whole loads, and what is packed a second from the start of one spreading to the start of another. */
function middle(day: Day, load: number): { lifts: Lift[]; rate: number } {
  const whole = day.lifts.filter((lift) => Math.abs(lift.mass - load) < 1e-6);
  const lifts = whole.slice(Math.floor(whole.length / 4), Math.ceil((whole.length * 3) / 4));
  const from = lifts[0]!.spreadFrom;
  const to = lifts.at(-1)!.spreadFrom;
  const between = day.lifts.filter((lift) => lift.spreadFrom >= from && lift.spreadFrom < to);
  return { lifts, rate: sum(between.map((lift) => lift.mass)) / (to - from) };
}

const within = (actual: number, expected: number, share: number) => expect(Math.abs(actual / expected - 1), `${actual} against ${expected}`).toBeLessThan(share);

describe("A steady day under hold packs packingRateAtTarget, to 0.1 %", () => {
  it.each([
    ["blade and roller", [blade(), roller()]],
    ["a blade alone", [blade(18_000)]],
    ["three", [blade(), roller(), roller(12_000)]],
    ["four fifths of the time", [blade(14_000, { rolling: 0.8 }), roller(16_000, { rolling: 0.8 })]],
    ["two blades", [blade(), blade(12_000, { spreads: 100 * T_PER_H }), roller()]],
    ["a light helper without credit", [blade(), roller(), roller(4000)]],
    ["a blade that is slower than the packing", [blade(14_000, { spreads: 90 * T_PER_H }), roller(20_000), roller(20_000)]],
  ])("%s", (_, tractors) => {
    for (const load of [16_000, 9000]) {
      const scenario = plan({ packing: { whenBehind: "hold" }, storages: [bunker({ tractors })], trucks: [trucks(6, { load })] });
      const { lifts, rate } = middle(rehearseDay(scenario), load);
      expect(lifts.length).toBeGreaterThan(15);
      within(rate, packingRateAtTarget(scenario, 0), 0.001);
    }
  });

  it("by hand for two equal tractors, one of them the blade: T = (s* + p) / 2 from the relation in US units", () => {
    const scenario = plan({ packing: { whenBehind: "hold" }, storages: [bunker({ tractors: [blade(16_000), roller(16_000)] })] });
    // PF that gives 240 kg DM/m3 at 2.6 m; E, tractor hours per ton, from PF = W/L sqrt(DM E); s* tractor seconds for 16 t; p = 16 t at 220 t/h.
    const factor = (240 / LB_PER_FT3 / (0.818 + (0.0136 * 2.6) / FOOT) - 8.5) / 0.0155;
    const effort = (factor * (0.15 / INCH) / (16_000 / POUND)) ** 2 / 0.34;
    const seconds = effort * 3600 * (16_000 / US_TON);
    const cycle = (seconds + 16_000 / (220 * T_PER_H)) / 2;
    within(packingRateAtTarget(scenario, 0), 16_000 / cycle, 1e-9);
    within(middle(rehearseDay(scenario), 16_000).rate, 16_000 / cycle, 0.001);
  });
});

describe("A steady day under bury gives the published relation, to 0.1 %", () => {
  /** N machines alike, rolling all the time, one of them a blade that spreads in no time worth the name. */
  const equals = (n: number, mass: number, over: Partial<Parameters<typeof chopper>[0]> = {}): Scenario => plan({
    storages: [bunker({ tractors: [blade(mass, { spreads: 1e9 }), ...Array.from({ length: n - 1 }, () => roller(mass))] })],
    // Rows as long as the field is: no turns, so that the loads come evenly.
    fields: [{ ...plan().fields[0]!, rowLength: 50_000 }], choppers: [chopper(over)], trucks: [trucks(9)],
  });

  it.each([[1, 16_000, 0.15], [2, 15_000, 0.15], [3, 9000, 0.15], [2, 20_000, 0.1], [4, 12_000, 0.25]])("%d tractors of %d kg, layer %d m", (n, mass, layer) => {
    const base = equals(n, mass);
    const scenario = { ...base, packing: { ...base.packing, layer } };
    const day = rehearseDay(scenario);
    const { densities, depth } = storedIn(day, scenario, 0);
    const { lifts, rate } = middle(day, 16_000);
    const tonPerHour = (rate * 3600) / US_TON;
    const published = densityUS(packingFactorUS(mass / POUND, layer / INCH, 0.34, n, tonPerHour), depth / FOOT) * LB_PER_FT3;
    expect(depth).toBe(2.6);
    for (const lift of lifts) within(densities[day.lifts.indexOf(lift)]!, published, 0.001);
  });

  it("as the hand calculation says: 1 tractor, 40,000 lb, 6 in, 35 %, 50 ton/h, 12 ft give 269.5 kg DM/m3 (computed from the equation)", () => {
    const load = 8 * US_TON;
    const base = equals(1, 40_000 * POUND);
    // A load in 8 / 50 h: the chopper's throughput makes up for the changeover.
    const scenario: Scenario = {
      ...base, trucks: [trucks(9, { load })], fields: [{ ...base.fields[0]!, dryMatter: 0.35 }],
      choppers: [chopper({ width: 60, throughput: load / (576 - 20) })],
      storages: [{ ...base.storages[0]!, meanDepth: 12 * FOOT }], packing: { ...base.packing, layer: 6 * INCH },
    };
    const day = rehearseDay(scenario);
    const { lifts, rate } = middle(day, load);
    within(rate, (50 * US_TON) / 3600, 1e-6);
    // Printed to a tenth: half a unit of the last digit.
    expect(Math.abs(storedIn(day, scenario, 0).densities[day.lifts.indexOf(lifts[5]!)]! - 269.5)).toBeLessThanOrEqual(0.05 + 0.001 * 269.5);
  });
});

describe("Under ease", () => {
  const scenario = plan({ packing: { whenBehind: "ease" } });
  const day = rehearseDay(scenario);
  const whole = day.trips.filter((trip) => Math.abs(trip.mass - 16_000) < 1e-6);

  it("nobody queues at the scale, for a tipping place or for room", () => {
    // The part load at shift end follows too closely on the last whole one to count.
    for (const trip of whole) expect([trip.weighFrom - trip.atScale, trip.placed - trip.atStorage, trip.tipFrom - trip.placed]).toEqual([0, 0, 0]);
    expect(day.chopperWaits[0]).toEqual({ hauling: 0, weighing: 0, tipping: 0, spreading: 0, packing: 0 });
  });

  it("delivery equals what the crew packs at target, turns and changeovers included", () => {
    const loads = whole.slice(10, 51);
    const seconds = loads.at(-1)!.filled - loads[0]!.filled;
    // Whether a turn falls in before or after the last load makes one turn of difference.
    within((16_000 * 40) / seconds, packingRateAtTarget(scenario, 0), chopper().turnTime / seconds);
  });

  it("the chopper is never faster than by nature when the crew could do more", () => {
    const strong = plan({ packing: { whenBehind: "ease" }, storages: [bunker({ tractors: [blade(), ...Array.from({ length: 8 }, () => roller(30_000))] })] });
    const hold = { ...strong, packing: { ...strong.packing, whenBehind: "bury" as const } };
    expect(rehearseDay(strong).trips).toEqual(rehearseDay(hold).trips);
  });

  it("two choppers share the pace of one crew", () => {
    const two = plan({
      packing: { whenBehind: "ease" }, choppers: [chopper(), chopper({ name: "Second", width: 3 })], trucks: [trucks(10)],
      fields: [{ ...plan().fields[0]!, rowLength: 50_000 }, { ...plan().fields[0]!, rowLength: 50_000, name: "Other" }],
    });
    const trips = rehearseDay(two).trips.slice().sort((a, b) => a.filled - b.filled).slice(10, 50);
    const rate = sum(trips.slice(1).map((trip) => trip.mass)) / (trips.at(-1)!.filled - trips[0]!.filled);
    // Two unequal streams of loads: one load more or less at either end of 39.
    within(rate, packingRateAtTarget(two, 0), 1 / 39);
  });

  it("a chopper that cuts for another storage, and could turn to this one later, leaves the pace alone", () => {
    const own = { ...plan().fields[0]!, rowLength: 50_000 };
    const at = (storages: readonly number[]) => rehearseDay(plan({
      packing: { whenBehind: "ease" }, choppers: [chopper(), chopper({ name: "Second" })], fields: [own, { ...own, name: "Other", storages }],
      trucks: [trucks(5, { chopper: 0 }), trucks(5, { kind: "Second's", chopper: 1 })], storages: [bunker(), bunker({ name: "South bunker" })],
    })).trips.filter((trip) => trip.chopper === 0);
    expect(at([1, 0])).toEqual(at([1]));
  });
});
