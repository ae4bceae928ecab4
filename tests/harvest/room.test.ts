import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { storedIn } from "../../sim/findings/stored.ts";
import { rollingShares, roomKeepsFrom, roomOn } from "../../sim/harvest/pace.ts";
import type { WedgeRoom } from "../../sim/scenario/types.ts";
import { shapes } from "../forage/geometry-shapes.ts";
import { blade, bunker, plan, roller } from "./plan.ts";

/** A blade and three rollers on a bunker of so many m. A tractor of 2.5 m wants a lane of 4.5 m. */
const crew = (width: number, wedgeRoom: WedgeRoom) => plan({
  storages: [bunker({ width, length: 60, meanDepth: 2.6, tractors: [blade(14_000), roller(16_000), roller(16_000), roller(16_000)] })],
  packing: { wedgeRoom },
});

const densityOf = (scenario: ReturnType<typeof plan>) => {
  const { dryMass, volume } = storedIn(rehearseDay(scenario), scenario, 0);
  return dryMass / volume;
};

describe("Room on the wedge", () => {
  it("by width, leaves a crew that fits as it is, from the first load on", () => {
    const day = rehearseDay(crew(18, "by-width"));
    expect(day.crew).toEqual([{ storage: 0, at: day.from, pays: 1 }]);
    expect(densityOf(crew(18, "by-width"))).toBe(densityOf(crew(18, "off")));
  });

  it("by width, lets the tractors that do not fit take turns: four on two lanes roll half of their time, beside pushing blades three roll two thirds", () => {
    const scenario = crew(9, "by-width");
    const { tractors } = scenario.storages[0]!;
    expect(roomOn(scenario, scenario.storages[0]!, 500, 1000)).toBe(2);
    expect(rollingShares(tractors, 2, false, () => true)).toEqual(tractors.map((tractor) => tractor.rolling / 2));
    expect(rollingShares(tractors, 2, true, () => true)).toEqual(tractors.map((tractor) => (tractor.spreads === null ? (tractor.rolling * 2) / 3 : 0)));
    expect(densityOf(scenario)).toBeLessThan(densityOf(crew(9, "off")));
  });

  it("on request takes one tractor only while the first wedge is built, and the crew pays its debt the slower until then", () => {
    const scenario = crew(18, "first-wedge-too");
    const { crew: changes, lifts, from } = rehearseDay(scenario);
    expect(changes[0]!.at).toBe(from);
    expect(changes[0]!.pays).toBeLessThan(0.5);
    expect(changes).toHaveLength(2);
    expect(changes[1]!.pays).toBe(1);
    // 12 % of the dry matter of the crop lies when the room opens, to within the load that opened it.
    const dry = lifts.reduce((sum, lift) => sum + lift.dryMass, 0);
    const first = lifts.filter((lift) => lift.opened <= changes[1]!.at).reduce((sum, lift) => sum + lift.dryMass, 0);
    expect(first).toBeGreaterThanOrEqual(0.12 * dry);
    expect(first - lifts[0]!.dryMass).toBeLessThan(0.12 * dry);
    expect(densityOf(scenario)).toBeLessThan(densityOf(crew(18, "by-width")));
  });

  it("stays as it is from the volume on that is named for it, and changed just before where the first wedge counts", () => {
    const room = fc.constantFrom<WedgeRoom>("off", "by-width", "first-wedge-too");
    fc.assert(fc.property(shapes, room, fc.double({ min: 1, max: 50_000, noNaN: true }), fc.double({ min: 0, max: 3, noNaN: true }), (shape, wedgeRoom, whole, more) => {
      const storage = { ...bunker(), ...shape };
      const scenario = plan({ storages: [storage], packing: { wedgeRoom } });
      const from = roomKeepsFrom(scenario, storage, whole);
      expect(roomOn(scenario, storage, from * (1 + more), whole)).toBe(roomOn(scenario, storage, from, whole));
    }), { numRuns: 1000 });
    const first = crew(18, "first-wedge-too");
    expect(roomKeepsFrom(first, first.storages[0]!, 5000)).toBe(0.12 * 5000);
    expect([599, 600].map((volume) => roomOn(first, first.storages[0]!, volume, 5000))).toEqual([1, 4]);
  });
});
