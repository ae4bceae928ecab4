/** The luck of a day: whose it is, that it survives a change of fleet, and that its factors have the mean they should. */
import { describe, expect, it } from "vitest";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Trip } from "../../sim/harvest/daylog.ts";
import type { Activity, Scenario } from "../../sim/scenario/types.ts";
import { chopper, field, plan, trucks, varying } from "./plan.ts";
import { sum } from "./reading.ts";

const typical = varying({ cutting: 0.1, load: 0.037, loaded: 0.15, empty: 0.15, weighing: 0.3, tip: 0.4, spread: 0.2, yield: 0.1 });
const fleet = (count: number): Scenario => plan({ variation: typical, trucks: [trucks(count)], packing: { whenBehind: "hold" } });

describe("One more truck leaves the rest of the luck as it was", () => {
  it.each([1, 2, 3])("on rehearsal %d: the mass, the cutting and the road of each chopper's k-th load", (rehearsal) => {
    const few = rehearseDay(fleet(4), { rehearsal });
    const more = rehearseDay(fleet(5), { rehearsal });
    // The last load is cut short by the end of the shift.
    const loads = Math.min(few.trips.length, more.trips.length) - 1;
    expect(loads).toBeGreaterThan(40);
    const luck = (trip: Trip) => [trip.mass, trip.filled - trip.fillFrom, trip.atLane - trip.filled];
    for (let k = 0; k < loads; k++) luck(few.trips[k]!).forEach((value, i) => expect(luck(more.trips[k]!)[i]).toBeCloseTo(value, 6));
    for (let k = 0; k < loads; k++) {
      const [a, b] = [few.trips[k]!, more.trips[k]!];
      if (!Number.isNaN(a.back + b.back)) expect(b.back - b.tipped).toBeCloseTo(a.back - a.tipped, 6);
    }
  });

  it("and so does one more chopper", () => {
    const two = (choppers: number) => rehearseDay(plan({
      variation: typical, choppers: Array.from({ length: choppers }, (_, i) => chopper({ name: `Chopper ${i + 1}` })),
      fields: [field(), field({ name: "Other" })], trucks: [trucks(4, { chopper: 0 }), trucks(4, { kind: "Others", chopper: choppers - 1 })],
    })).trips.filter((trip) => trip.chopper === 0).map((trip) => trip.mass);
    const [alone, beside] = [two(1), two(2)];
    const loads = Math.min(alone.length, beside.length, 40);
    expect(beside.slice(0, loads)).toEqual(alone.slice(0, loads));
  });

  it("a change of shape draws the same numbers: a heavy load stays a heavy load", () => {
    const masses = (cv: number) => rehearseDay({ ...fleet(5), variation: varying({ load: cv }) }).trips.slice(0, -1).map((trip) => trip.mass);
    const [narrow, wide] = [masses(0.02), masses(0.04)];
    const loads = Math.min(narrow.length, wide.length);
    const order = (values: number[]) => values.slice(0, loads).map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
    expect(order(wide)).toEqual(order(narrow));
  });
});

describe("Rehearsals", () => {
  it("differ from one another, and each is the same whenever it is asked for", () => {
    const finish = (rehearsal: number) => rehearseDay(fleet(5), { rehearsal }).until;
    const first = Array.from({ length: 10 }, (_, i) => finish(i));
    expect(new Set(first).size).toBe(10);
    expect([finish(9), finish(3), finish(0)]).toEqual([first[9], first[3], first[0]]);
  });

  it("of a day without variation are all alike", () => {
    const without = { ...fleet(5), variation: plan().variation };
    expect(rehearseDay(without, { rehearsal: 7, seed: 3 })).toEqual(rehearseDay(without));
  });
});

/** Standard errors that a mean of independent draws may be off: 99.99 % of all. */
const Z = 3.9;

describe("The factors of every activity have the mean 1", () => {
  const day = (activity: Activity, cv: number) => rehearseDay(plan({
    variation: varying({ [activity]: cv }), fields: [field({ area: 3_000_000, rowLength: 1e6 })], shift: { end: 20 * 86_400 },
    trucks: [trucks(6)], storages: [{ ...plan().storages[0]!, length: 5000 }],
  }));
  /** Cutting of a whole load, s: the field is one row, so no turns; 45 t/ha, 6 m, 6 km/h are 45 kg/s, the throughput is less. */
  const nominal: Record<Exclude<Activity, "yield">, { of: (trips: readonly Trip[]) => number[]; mean: number }> = {
    cutting: { of: (trips) => trips.map((t) => t.filled - t.fillFrom), mean: 16_000 / ((160 * 1000) / 3600) },
    load: { of: (trips) => trips.map((t) => t.mass), mean: 16_000 },
    loaded: { of: (trips) => trips.map((t) => t.atLane - t.filled), mean: (2.4 / 28) * 3600 },
    empty: { of: (trips) => trips.map((t) => t.back - t.tipped), mean: (2.4 / 34) * 3600 },
    weighing: { of: (trips) => trips.map((t) => t.weighed - t.weighFrom), mean: 60 },
    tip: { of: (trips) => trips.map((t) => t.tipped - t.tipFrom), mean: 240 },
    spread: { of: () => [], mean: 16_000 / ((220 * 1000) / 3600) },
  };

  it.each([["cutting", 0.1], ["load", 0.037], ["loaded", 0.15], ["empty", 0.15], ["weighing", 0.3], ["tip", 0.4], ["spread", 0.2]] as const)("%s, cv %d", (activity, cv) => {
    const { trips, lifts } = day(activity, cv);
    const { of, mean } = nominal[activity];
    const drawn = activity === "spread" ? lifts.slice(0, -1).map((lift) => (lift.opened - lift.spreadFrom) * (lift.layer / 0.15)) : of(trips.slice(0, -20));
    expect(drawn.length).toBeGreaterThan(500);
    const factors = drawn.map((value) => value / mean);
    const average = sum(factors) / factors.length;
    expect(Math.abs(average - 1)).toBeLessThan((Z * cv) / Math.sqrt(factors.length));
    // The spread of a lognormal's sample standard deviation is about cv sqrt((2 + 16 cv^2) / 4n) for small cv.
    const sd = Math.sqrt(sum(factors.map((f) => (f - average) ** 2)) / (factors.length - 1));
    expect(Math.abs(sd / cv - 1)).toBeLessThan((Z * Math.sqrt(2 + 16 * cv ** 2)) / 2 / Math.sqrt(factors.length));
  });

  it("yield, cv 0.1, one draw a field and day", () => {
    const scenario = plan({ variation: varying({ yield: 0.1 }), fields: [field({ area: 3000 }), field({ area: 3000, name: "Other" })] });
    const crops = Array.from({ length: 400 }, (_, rehearsal) => {
      const { trips } = rehearseDay(scenario, { rehearsal });
      return [0, 1].map((f) => sum(trips.filter((trip) => trip.field === f).map((trip) => trip.mass)) / 13_500);
    });
    const factors = crops.flat();
    expect(Math.abs(sum(factors) / factors.length - 1)).toBeLessThan((Z * 0.1) / Math.sqrt(factors.length));
    // The two fields draw apart: a correlation of 400 pairs is within Z / sqrt(400) of nothing.
    const [a, b] = [0, 1].map((f) => crops.map((crop) => crop[f]! - 1));
    const correlation = sum(a!.map((value, i) => value * b![i]!)) / Math.sqrt(sum(a!.map((v) => v * v)) * sum(b!.map((v) => v * v)));
    expect(Math.abs(correlation)).toBeLessThan(Z / Math.sqrt(400));
  });
});
