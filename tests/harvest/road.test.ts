/** On the road and at the scale: weighing lanes, the single-lane stretch. Every instant is worked by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { doings, each, run, steps } from "./reading.ts";
import { tiny, tinyBunker, tinyField, tinyTrucks } from "./plan.ts";

const roomy = tinyBunker({ tippingPlaces: 9, apron: 1e9 });
/** Trucks of 1 t, 25 s under the spout: without a changeover to speak of they come to the storage close together. */
const crowd = (count: number, over = {}) => tiny({ fields: [tinyField({ area: 250 * count })], trucks: [tinyTrucks(count, { load: 1000 })], storages: [roomy], ...over });

describe("Weighing", () => {
  it("takes its time between the road and the line for a tipping place", () => {
    const day = run(crowd(1, { weighing: { time: 60, lanes: 1 } }));
    expect(steps(day, 0, "filled", "atScale", "weighFrom", "weighed", "atStorage", "placed", "tipFrom", "tipped")).toEqual({
      filled: 25, atScale: 225, weighFrom: 225, weighed: 285, atStorage: 285, placed: 285, tipFrom: 285, tipped: 405,
    });
  });

  it("on one lane lets trucks wait, first come, first served", () => {
    // Full at 25, 70, 115: 45 s apart, 60 s on the scale.
    const day = run(crowd(3, { weighing: { time: 60, lanes: 1 } }));
    expect(each(day, "atScale")).toEqual([225, 270, 315]);
    expect(each(day, "weighFrom")).toEqual([225, 285, 345]);
    expect(each(day, "weighed")).toEqual([285, 345, 405]);
    expect(doings(day, "Tipper 2").slice(-4)).toEqual([[70, "loaded-road"], [270, "scale-line"], [285, "weighing"], [345, "tipping"]]);
  });

  it("on two lanes weighs two at a time", () => {
    const day = run(crowd(3, { weighing: { time: 100, lanes: 2 } }));
    expect(each(day, "weighFrom")).toEqual([225, 270, 325]);
  });
});

describe("The single-lane stretch", () => {
  /** 400 m at 4 m/s, 100 s, of the 2000 m; so the rest takes 160 s loaded and 80 s empty. */
  const lane = { length: 400, speed: 4, meeting: 30 };

  it("is driven at its own speed, inside the distance of the field, both ways", () => {
    // Full at 150; road to 310; lane to 410; tip to 530; the lane turns to 560; lane to 660; road to 740.
    const day = run(tiny({ trucks: [tinyTrucks(1, { load: 6000 })], lane }));
    expect(steps(day, 0, "filled", "atLane", "inLane", "atScale", "tipped", "back")).toEqual({ filled: 150, atLane: 310, inLane: 310, atScale: 410, tipped: 530, back: 740 });
    expect(doings(day, "Tipper 1").slice(1, 8)).toEqual([
      [150, "loaded-road"], [310, "loaded-road"], [410, "tipping"], [530, "lane"], [560, "empty-road"], [660, "empty-road"], [740, "filling"],
    ]);
    // The next way round it turns again.
    expect(day.trips[1]!.inLane - day.trips[1]!.atLane).toBe(30);
  });

  it("lets trucks of one direction follow each other, and the other direction wait until it is empty and has turned", () => {
    // Tips of 40 s: the first truck wants to drive out while the others drive in.
    const day = run(tiny({ fields: [tinyField({ area: 2000 })], trucks: [tinyTrucks(3, { load: 1000, tip: 40 })], storages: [roomy], lane }));
    // Full at 25, 70, 115; at the lane 185, 230, 275; in at once, out at 285, 330, 375.
    expect(each(day, "inLane").slice(0, 3)).toEqual([185, 230, 275]);
    expect(each(day, "atScale").slice(0, 3)).toEqual([285, 330, 375]);
    // Tipped 325, 370, 415. The first stands from 325; the lane is empty at 375 and runs outward from 405; the second is with it.
    expect(doings(day, "Tipper 1").filter(([, state]) => state === "lane")[0]).toEqual([325, "lane"]);
    expect(each(day, "back").slice(0, 3)).toEqual([405 + 180, 405 + 180, 415 + 180]);
  });

  it("is first come, first served: nobody of the same direction overtakes one who waits for the other", () => {
    const day = run(tiny({ fields: [tinyField({ area: 4000 })], trucks: [tinyTrucks(3, { load: 4000, tip: 10 })], storages: [roomy], lane: { ...lane, meeting: 0 } }));
    // Full at 100 and, after changeover, row end and turn, at 245. The first drives in 260-360, tips to 370 and drives out 370-470.
    expect(steps(day, 0, "inLane", "tipped", "back")).toEqual({ inLane: 260, tipped: 370, back: 370 + 100 + 80 });
    // The second is at the lane at 405 and waits until it is empty, 470.
    expect(steps(day, 1, "filled", "atLane", "inLane")).toEqual({ filled: 245, atLane: 405, inLane: 470 });
  });

  it("never has trucks of both directions inside, and always gives the direction its meeting time", () => {
    const day = run(tiny({ fields: [tinyField({ area: 40_000 })], trucks: [tinyTrucks(6, { load: 3000, tip: 60 })], storages: [roomy], lane }));
    const inward = day.trips.map((trip) => ({ from: trip.inLane, to: trip.inLane + 100, way: "in" }));
    const outward = day.trips.filter((trip) => !Number.isNaN(trip.back)).map((trip) => ({ from: trip.back - 180, to: trip.back - 80, way: "out" }));
    const stays = [...inward, ...outward].sort((a, b) => a.from - b.from);
    expect(outward.length).toBeGreaterThan(20);
    for (const [i, stay] of stays.entries()) {
      const other = stays.slice(i + 1).find((later) => later.way !== stay.way);
      if (other) expect(other.from).toBeGreaterThanOrEqual(stay.to + lane.meeting - 1e-6);
    }
  });
});
