/**
 * Little's law at each station: the area under a queue is the sum of the stays in it. The area is the kernel's own, the stays are read
 * from the trips: two ways to one number that only agree when every arrival is logged when it happens.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bladeDay } from "../../sim/harvest/blade.ts";
import { chopperDay } from "../../sim/harvest/chopper.ts";
import type { Trip } from "../../sim/harvest/daylog.ts";
import { Luck } from "../../sim/harvest/luck.ts";
import { truckDay } from "../../sim/harvest/truck.ts";
import { Yard } from "../../sim/harvest/yard.ts";
import { Calendar, Simulation, Streams } from "../../sim/kernel/index.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { anyDay, PATIENCE, RUNS, type Without } from "./generated.ts";
import { sum } from "./reading.ts";

/** The day's machines at work without the bell that ends the shift: the field is cut to its end, and the yard can be asked afterwards. */
function yardAfter(scenario: Scenario): Yard {
  const { shift, variation, seed } = scenario;
  const sim = new Simulation({ start: shift.start });
  const yard = new Yard({ sim, breaks: new Calendar(shift.breaks.map((p) => ({ from: p.at, to: p.at + p.for }))), states: null }, scenario, new Luck(variation, new Streams(seed, 0)));
  for (const truck of yard.trucks) truck.machine.process = sim.spawn(truckDay(truck, yard));
  for (const chopper of yard.choppers) chopper.machine.process = sim.spawn(chopperDay(chopper, yard));
  for (const clamp of yard.clamps) sim.spawn(bladeDay(clamp, yard));
  sim.run();
  return yard;
}

const stays = (trips: readonly Trip[], from: keyof Trip, to: keyof Trip) => sum(trips.map((trip) => trip[to] - trip[from]));
const agrees = (area: number, stayed: number, where: string) => expect(Math.abs(area - stayed), `${where}: area ${area}, stays ${stayed}`).toBeLessThan(1e-6 * (1 + area));

describe("Little's law holds", () => {
  const atEvery = (look: (yard: Yard) => void, without: Without = {}) =>
    fc.assert(fc.property(anyDay({ breakdowns: true, ...without }), (scenario) => look(yardAfter(scenario))), RUNS);

  it("at the scale: trucks in line, and on it", () => {
    atEvery(({ scale, trips }) => {
      if (!scale) return;
      agrees(scale.stats.queue.area, stays(trips, "atScale", "weighFrom"), "line");
      agrees(scale.stats.inUse.area, stays(trips, "weighFrom", "weighed"), "scale");
      expect(scale.stats.grants).toBe(trips.length);
    });
  }, PATIENCE);

  it("at the storages: trucks in line for a place, on places, waiting for room; tonnes on the apron", () => {
    atEvery(({ clamps, trips, lifts }) => {
      for (const clamp of clamps) {
        const own = trips.filter((trip) => trip.storage === clamp.index);
        agrees(clamp.places.stats.queue.area, stays(own, "atStorage", "placed"), "line");
        agrees(clamp.places.stats.inUse.area, stays(own, "placed", "tipped"), "places");
        agrees(clamp.apron.stats.puts.queue.area, stays(own, "placed", "tipFrom"), "room");
        const laid = lifts.filter((lift) => lift.storage === clamp.index);
        agrees(clamp.apron.stats.level.area, sum(laid.map((lift) => lift.mass * (lift.spreadFrom - trips[lift.trip]!.tipFrom))), "apron");
      }
    });
  }, PATIENCE);

  it("in the choppers' lines: trucks waiting to be filled, those that were sent away again included", () => {
    atEvery(({ choppers, trucks }) => {
      const stood = sum(trucks.map((truck) => truck.machine.record().seconds["in-line"] ?? 0));
      agrees(sum(choppers.map((chopper) => chopper.line.stats.size.area)), stood, "lines");
    }, { breaks: true });
  }, PATIENCE);
});
