import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { momentAt } from "../../sim/harvest/moment.ts";
import { curvesOf, gapAt, heightAt, timeWhen } from "../../viz/curves.ts";
import { plan, trucks } from "../harvest/plan.ts";
import { runs } from "../scenario/generated.ts";
import { anyDay, anyShare, rehearsal, timeAt } from "./anyday.ts";

describe("the curves of tonnes tipped and tonnes laid", () => {
  it("never cross and never fall, and end at what the day tipped and laid", () => {
    fc.assert(fc.property(anyDay, (day) => {
      const { tipped, packed } = curvesOf(day.day, null);
      for (const curve of [tipped, packed]) curve.forEach((point, i) => expect(point.mass).toBeGreaterThan((curve[i - 1]?.mass ?? 0) - 1e-3));
      for (const { time, mass } of packed) expect(heightAt(tipped, time)).toBeGreaterThan(mass - 1e-3);
      expect(tipped.at(-1)!.mass).toBeCloseTo(day.day.trips.reduce((sum, trip) => sum + (Number.isNaN(trip.tipped) ? 0 : trip.mass), 0), 3);
      expect(packed.at(-1)!.mass).toBeCloseTo(day.day.lifts.reduce((sum, lift) => sum + lift.mass, 0), 3);
    }), { numRuns: runs(40, 500) });
  });

  it("stand as high as the replay says at the same time, when nothing interrupts a tip or a spreading", () => {
    const day = rehearsal(plan({ trucks: [trucks(4)], packing: { whenBehind: "hold" } }));
    const { tipped, packed } = curvesOf(day.day, 0);
    fc.assert(fc.property(anyShare, (share) => {
      const time = timeAt(day, share);
      const [storage] = momentAt(day.replay, time).storages;
      expect(heightAt(tipped, time)).toBeCloseTo(storage!.tipped, 2);
      expect(heightAt(packed, time)).toBeCloseTo(storage!.laid, 2);
    }));
  });

  it("have a gap that is what waits upright, and level the time since as much had been tipped as is laid now", () => {
    fc.assert(fc.property(anyDay, anyShare, (day, share) => {
      const curves = curvesOf(day.day, null);
      const time = timeAt(day, share);
      const { mass, ago } = gapAt(curves, time);
      expect(mass).toBeCloseTo(Math.max(0, heightAt(curves.tipped, time) - heightAt(curves.packed, time)), -1);
      expect(ago).toBeGreaterThanOrEqual(0);
      if (mass > 0) expect(heightAt(curves.tipped, time - ago)).toBeCloseTo(heightAt(curves.packed, time), 1);
    }), { numRuns: runs(40, 500) });
  });

  it("give back the first time at which they stood so high", () => {
    const points = [{ time: 0, mass: 0 }, { time: 10, mass: 100 }, { time: 20, mass: 100 }, { time: 30, mass: 200 }];
    expect([0, 50, 100, 150, 200, 300].map((mass) => timeWhen(points, mass))).toEqual([0, 5, 10, 25, 30, 30]);
  });
});
