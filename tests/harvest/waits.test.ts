/** Why the chopper stands: every waiting second is charged to its cause. Instants by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { WAIT_CAUSES } from "../../sim/harvest/daylog.ts";
import { densityAfter } from "./relation.ts";
import { doings, machineNamed, run, sum } from "./reading.ts";
import { plan, roller, tiny, tinyBlade, tinyBunker, tinyChopper, tinyField, tinyTrucks } from "./plan.ts";
import type { Wishes } from "./plan.ts";

const none = { hauling: 0, weighing: 0, tipping: 0, spreading: 0, packing: 0 };
/** Two trucks of 5 t. The first is full at 125, stands at the storage (or scale) at 325; the second is full at 295 and stands there at 495. The chopper waits from 295. */
const two = (over: Wishes = {}, storage = {}) => tiny({ trucks: [tinyTrucks(2, { load: 5000 })], storages: [tinyBunker(storage)], ...over });

describe("A chopper that waits for a truck", () => {
  it("waits for the hauling while its trucks are on the road, on the scale or tipping, with none queued", () => {
    // One tips from 325 to 445 and is back at 545.
    const day = run(two({}, { tippingPlaces: 2 }));
    expect(doings(day, "Chopper").slice(5, 7)).toEqual([[295, "waiting"], [545, "changeover"]]);
    expect(day.chopperWaits).toEqual([{ ...none, hauling: 250 }]);
  });

  it("waits for the weighing while a truck stands in line at the scale", () => {
    // On the scale 325-925; in line from 495; tipped 1045, back 1145.
    const day = run(two({ weighing: { time: 600, lanes: 1 } }));
    expect(day.chopperWaits).toEqual([{ ...none, hauling: 495 - 295 + 1145 - 925, weighing: 925 - 495 }]);
  });

  it("waits for the tipping while a truck stands in line for a place and there is room on the apron", () => {
    // Tips 600 s: place taken from 325 to 925; in line from 495; back 1025.
    const day = run(two({ trucks: [tinyTrucks(2, { load: 5000, tip: 600 })] }));
    expect(day.chopperWaits).toEqual([{ ...none, hauling: 495 - 295 + 1025 - 925, tipping: 925 - 495 }]);
  });

  /** Three trucks of 3 t, six loads; an apron for one. Full at 75, 170, 290; then 590 and 735 with the trucks back at 495 and 615. */
  const tight = (over: Wishes, tractor: ReturnType<typeof tinyBlade>) => tiny({
    fields: [tinyField({ area: 4500 })], trucks: [tinyTrucks(3, { load: 3000 })], storages: [tinyBunker({ apron: 3000, tractors: [tractor, roller()] })], ...over,
  });

  it("waits for the spreading while the apron is full and the blades push", () => {
    // 3 t in 600 s. The first tips 275-395 and is spread 395-995; the second tips 395-515 and lies there until 995; the third has the
    // place from 515, room from 995, and is back at 1215.
    const day = run(tight({}, tinyBlade({ spreads: 5 })));
    expect(doings(day, "Chopper").filter(([, state]) => state === "waiting")).toEqual([[290, "waiting"], [590, "waiting"], [735, "waiting"]]);
    // 370-395 the second stands in line while the first tips: the apron is full, but nobody pushes yet. 490-495 the third does.
    expect(day.chopperWaits).toEqual([{ ...none, hauling: 370 - 290 + 490 - 395, tipping: 25, spreading: 5 + 25 + 1215 - 735 }]);
  });

  it("waits for the packing while the apron is full and the blades wait for packing", () => {
    // Hold, and 2000 s of rolling a load: the second is spread from 455 + 1940 = 2395 to 2455, when the third gets room; it is back at 2615.
    const crew = { mass: 16_000, load: 3000, dryMatter: 0.34, layer: 0.15, depth: 2.6 };
    const day = run(tight({ packing: { whenBehind: "hold" }, targets: { dryDensity: densityAfter(2000, crew) } }, tinyBlade({ rolling: 0 })));
    const charged = day.chopperWaits[0]!;
    expect(charged.hauling).toBeCloseTo(370 - 290 + 490 - 395, 6);
    // While the third tips, 2395-2515, the fourth stands in line: the blades push for 60 s, then wait for the third load, not for packing.
    expect(charged.spreading).toBeCloseTo(60, 6);
    expect(charged.tipping).toBeCloseTo(25 + 5 + 60, 6);
    expect(charged.packing).toBeCloseTo(25 + 2395 - 735 + 2615 - 2515, 6);
    expect(charged.weighing).toBe(0);
  });

  it("is charged for no more than it waits, on worked days under every rule", () => {
    for (const whenBehind of ["hold", "bury", "hold-then-bury", "ease"] as const) {
      const day = run(plan({ packing: { whenBehind }, shift: { breaks: [{ at: 12 * 3600, for: 1800 }] } }));
      for (const cause of WAIT_CAUSES) expect(day.chopperWaits[0]![cause]).toBeGreaterThanOrEqual(0);
      expect(sum(Object.values(day.chopperWaits[0]!))).toBeCloseTo(machineNamed(day, "Chopper").seconds.waiting ?? 0, 6);
    }
  });

  it("does not answer for trucks that are tied to another chopper", () => {
    // B's two trucks queue at the scale; A's only truck is on the road.
    const day = run(tiny({
      fields: [tinyField({ area: 9000 }), tinyField({ area: 9000, distance: 20_000, name: "Far" })], choppers: [tinyChopper({ name: "Near one" }), tinyChopper({ name: "Far one" })],
      trucks: [tinyTrucks(4, { kind: "Near", load: 3000, chopper: 0 }), tinyTrucks(1, { kind: "Far", load: 3000, chopper: 1 })], weighing: { time: 400, lanes: 1 },
    }));
    expect(day.chopperWaits[0]!.weighing).toBeGreaterThan(500);
    // The far truck itself stands in line now and then, and only then is it the weighing's fault.
    const own = day.trips.filter((trip) => trip.chopper === 1);
    expect(day.chopperWaits[1]!.weighing).toBeLessThanOrEqual(sum(own.map((trip) => trip.weighFrom - trip.atScale)) + 1e-6);
    expect(day.chopperWaits[1]!.hauling).toBeGreaterThan(0);
  });
});
