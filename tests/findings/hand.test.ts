/** The hand calculation beside the simulation: bounds worked by hand, and no steady day above the least of them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { findingsOf } from "../../sim/findings/findings.ts";
import { handBounds, handCheck, offeredRate, packingRateAtTarget } from "../../sim/findings/hand.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { anyDay, PATIENCE, RUNS } from "../harvest/generated.ts";
import { blade, bunker, chopper, field, plan, roller, tiny, tinyField, trucks } from "../harvest/plan.ts";

const perHour = (rate: number) => rate * 3.6;

describe("Bounds of the worked day, t/h", () => {
  const bounds = handBounds(plan());
  // 16 t: 360 s of cutting at 160 t/h, 16 / 11.34 turns of 25 s, a changeover of 20 s.
  const fill = 360 + (16 / 11.34) * 25 + 20;

  it("cutting: a load in its cutting, its share of the turns and its changeover", () => {
    expect(perHour(bounds.cutting)).toBeCloseTo((16 / fill) * 3600, 9);
  });

  it("hauling: five trucks, each a round of filling, road both ways, scale and tip", () => {
    const round = fill + (2.4 / 28 + 2.4 / 34) * 3600 + 60 + 240;
    expect(perHour(bounds.hauling)).toBeCloseTo((5 * 16 * 3600) / round, 9);
    expect(perHour(offeredRate(bounds))).toBeCloseTo(Math.min((16 / fill) * 3600, (5 * 16 * 3600) / round), 9);
  });

  it("weighing, tipping, spreading: what one load occupies them for", () => {
    expect([bounds.weighing, bounds.tipping, bounds.spreading].map(perHour)).toEqual([expect.closeTo(960, 9), expect.closeTo(240, 9), expect.closeTo(220, 9)]);
  });

  it("packing: what hold packs in steady work", () => {
    expect(bounds.packing).toBe(packingRateAtTarget(plan(), 0));
    expect(Math.abs(perHour(bounds.packing) - 70.4)).toBeLessThanOrEqual(0.05);
  });
});

describe("Bounds of other days", () => {
  it("lanes, places, choppers and blades add", () => {
    const more = handBounds(plan({
      choppers: [chopper(), chopper({ name: "Second" })], weighing: { time: 60, lanes: 2 },
      storages: [bunker({ tippingPlaces: 3, tractors: [blade(), blade(14_000, { name: "Second blade" }), roller()] })],
    }));
    const one = handBounds(plan());
    expect([more.cutting / one.cutting, more.weighing / one.weighing, more.tipping / one.tipping, more.spreading / one.spreading]).toEqual([2, 2, 3, 2].map((n) => expect.closeTo(n, 9)));
  });

  it("without a scale there is no bound of weighing, and the check leaves it out", () => {
    const without = plan({ weighing: null });
    expect(handBounds(without).weighing).toBe(Infinity);
    expect(handCheck(without, handBounds(without), 100).map((row) => row.station)).toEqual(["cutting", "hauling", "tipping", "spreading", "packing"]);
  });

  it("a single-lane stretch is driven at its own speed, both ways, inside the distance", () => {
    const lane = handBounds(plan({ lane: { length: 400, speed: 2, meeting: 0 } }));
    const fill = 360 + (16 / 11.34) * 25 + 20;
    expect(perHour(lane.hauling)).toBeCloseTo((5 * 16 * 3600) / (fill + (2 / 28 + 2 / 34) * 3600 + 2 * 200 + 60 + 240), 9);
  });

  it("kinds of truck add, and tip for as long as each takes", () => {
    const mixed = handBounds(plan({ trucks: [trucks(2), trucks(1, { kind: "Large", load: 24_000, tip: 600 })] }));
    // 32 t in 480 s and 24 t in 600 s: 56 t in 1080 s of one place.
    expect(perHour(mixed.tipping)).toBeCloseTo((56 * 3600) / 1080, 9);
  });

  it("of unlike fields take the mean of what each kilogram costs", () => {
    // The same yield, half the crop at twice the distance: the road is that of 1.5 times the distance.
    const far = handBounds(tiny({ fields: [tinyField(), tinyField({ name: "Far", distance: 4000 })] }));
    const middle = handBounds(tiny({ fields: [tinyField({ distance: 3000 })] }));
    expect(far.hauling).toBeCloseTo(middle.hauling, 9);
  });
});

describe("The check in words", () => {
  const worked = plan();
  const words = (simulated: number, scenario = worked) => Object.fromEntries(handCheck(scenario, handBounds(scenario), simulated).map((row) => [row.station, row.gapInWords]));

  it("says which station works at its bound and how far the others are from theirs", () => {
    const hold = plan({ packing: { whenBehind: "hold" } });
    expect(words(70.4, hold)).toMatchObject({ packing: "works at its bound", tipping: expect.stringContaining("3.4 times as much") });
    expect(words(60, hold).packing).toMatch(/^15 % .*bunching/);
  });

  it("says that more than is packed at target is buried loose", () => {
    expect(words(138.4).packing).toContain("buries it loose");
    expect(words(0).cutting).toBe("nothing passed");
  });

  it("says that a crew that buries lays thicker, and so faster than at the set layer", () => {
    expect(words(260).spreading).toContain("lays it thicker");
    expect(words(260, plan({ packing: { whenBehind: "hold" } })).spreading).toMatch(/^above the bound for a while/u);
  });
});

describe("Several storages", () => {
  const halves = [field({ area: 150_000, storages: [0] }), field({ name: "Far Side", area: 150_000, storages: [1] })];
  const two = (choppers: number) => plan({
    storages: [bunker(), bunker({ name: "South bunker" })], fields: halves, choppers: Array.from({ length: choppers }, (_, i) => chopper({ name: `Chopper ${i + 1}` })),
  });
  const bound = (scenario: Scenario, station: string) => findingsOf({ scenario, seed: 1, days: [factsOf(scenario, rehearseDay(scenario))], machines: [], defaults: [] }).handCheck.find((row) => row.station === station)!;

  it("of one chopper pass what one of them does, since it fills them in turn, and of several what all do", () => {
    const one = plan({ fields: [field({ area: 150_000 })] });
    for (const station of ["tipping", "spreading", "packing"]) {
      expect(bound(two(1), station).boundTPerH, station).toBeCloseTo(bound(one, station).boundTPerH, 9);
      expect(bound(two(2), station).boundTPerH, station).toBeCloseTo(2 * bound(one, station).boundTPerH, 9);
    }
    // Both crews together could pack what is brought; each has all of it to pack.
    expect(bound(two(1), "packing").gapInWords).toContain("buries it loose");
  });
});

describe("A steady day", () => {
  /** One chopper that never turns, trucks alike, one storage: the bounds hold to the letter once the line is full. */
  const steady = anyDay({ luck: true, breakdowns: true, breaks: true }).map((scenario): Scenario => ({
    ...scenario, choppers: [{ ...scenario.choppers[0]!, turnTime: 0 }], storages: scenario.storages.slice(0, 1), trucks: scenario.trucks.slice(0, 1), lane: null,
    fields: [field({ ...scenario.fields[0]!, area: scenario.fields[0]!.area * 40, storages: [0], chopper: null, opening: null })],
    packing: { ...scenario.packing, whenBehind: "hold" }, shift: { ...scenario.shift, end: scenario.shift.start + 12 * 3600 },
  }));

  it("never passes more between its loads in the middle than the least bound of field, road, scale and tip", () => {
    fc.assert(fc.property(steady, (scenario) => {
      const { trips } = rehearseDay(scenario);
      const load = scenario.trucks[0]!.load;
      const whole = trips.filter((trip) => Math.abs(trip.mass - load) < 1e-6);
      const { count } = scenario.trucks[0]!;
      // From a multiple of the fleet to a later one, so that whole rounds are counted.
      const from = count * Math.ceil(whole.length / (4 * count));
      const to = from + count * Math.floor((whole.length - 1 - from) / count);
      if (to <= from) return;
      const rate = ((to - from) * load) / (whole[to]!.filled - whole[from]!.filled);
      const { cutting, hauling, weighing, tipping } = handBounds(scenario);
      const bound = Math.min(cutting, hauling, weighing, tipping);
      // The scale and the places may have let a fleet less through than has left the field meanwhile.
      const most = Math.min(Math.min(cutting, hauling) * (1 + 1e-9), bound * (1 + count / (to - from)));
      if (rate > most) throw new Error(`${rate} above ${bound}: ${JSON.stringify(handBounds(scenario))}`);
    }), RUNS);
  }, PATIENCE);

  it("on the worked day comes within half a percent of its bound", () => {
    const { measures } = factsOf(plan(), rehearseDay(plan()));
    const bounds = handBounds(plan());
    const bound = Math.min(bounds.cutting, bounds.hauling, bounds.weighing, bounds.tipping);
    expect(Math.abs(measures.deliveryRate / perHour(bound) - 1)).toBeLessThan(0.005);
  });
});
