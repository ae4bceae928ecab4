/** At the storage: a tipping place first, then room on the apron, then the tip. Every instant is worked by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { doings, each, eachLift, run, steps } from "./reading.ts";
import { tiny, tinyBlade, tinyBunker, tinyField, tinyTrucks } from "./plan.ts";

/** Loads of 1 t that are full at 25, 70, 115, 160, 205, 250 (one row): each stands at the storage 200 s later. */
const crowd = (count: number, over = {}, packing = {}) =>
  tiny({ fields: [tinyField({ area: 250 * count })], trucks: [tinyTrucks(count, { load: 1000 })], storages: [tinyBunker(over)], packing });

describe("A tipping place", () => {
  it("serves one truck at a time, first come, first served", () => {
    const day = run(crowd(3));
    expect(each(day, "atStorage")).toEqual([225, 270, 315]);
    expect(each(day, "placed")).toEqual([225, 345, 465]);
    expect(each(day, "tipFrom")).toEqual([225, 345, 465]);
    expect(each(day, "tipped")).toEqual([345, 465, 585]);
    expect(doings(day, "Tipper 3").slice(-3)).toEqual([[115, "loaded-road"], [315, "place-line"], [465, "tipping"]]);
  });

  it("and another beside it serve two", () => {
    const day = run(crowd(3, { tippingPlaces: 2 }));
    expect(each(day, "tipFrom")).toEqual([225, 270, 345]);
  });
});

describe("Room on the apron", () => {
  it("is waited for on the tipping place, and comes when the blades begin to spread", () => {
    // Room for one load and a half. The blade pushes 1 t in 20 s.
    const day = run(crowd(3, { tippingPlaces: 2, apron: 1500 }));
    expect(each(day, "placed")).toEqual([225, 270, 345]);
    // The first is tipped by 345: its spreading begins then, and frees the room for the second, tipped by 465.
    expect(each(day, "tipFrom")).toEqual([225, 345, 465]);
    expect(eachLift(day, "spreadFrom")).toEqual([345, 465, 585]);
    expect(doings(day, "Tipper 2").slice(-3)).toEqual([[70, "loaded-road"], [270, "room-wait"], [345, "tipping"]]);
    expect(doings(day, "Tipper 3").slice(-3)).toEqual([[315, "place-line"], [345, "room-wait"], [465, "tipping"]]);
  });

  it("is taken from the start of the tip and given back when the spreading starts, not when it ends", () => {
    // A slow blade: 1 t in 200 s. Loads tip one by one onto an apron that holds two.
    const day = run(crowd(4, { apron: 2000, tractors: [tinyBlade({ spreads: 5 })] }));
    // The third finds one load ready behind it and is spread twice as thick, in half the time.
    expect(eachLift(day, "spreadFrom")).toEqual([345, 545, 745, 845]);
    // The first is taken at 345, the second at 545: the third and fourth have room as soon as they have the place.
    expect(each(day, "tipFrom")).toEqual([225, 345, 465, 585]);
  });

  it("keeps a truck waiting as long as two loads lie there", () => {
    const day = run(crowd(4, { apron: 2000, tractors: [tinyBlade({ spreads: 2 })] }));
    // 1 t in 500 s, the second and third, with one ready behind them, twice as thick in 250 s.
    expect(eachLift(day, "spreadFrom")).toEqual([345, 845, 1095, 1345]);
    // The third load lies beside the second from 465; the fourth has the place from 585 and room when the second is taken.
    expect(steps(day, 3, "placed", "tipFrom", "tipped")).toEqual({ placed: 585, tipFrom: 845, tipped: 965 });
  });

  it("is there for a load larger than the whole apron once the apron is bare", () => {
    const day = run(crowd(2, { apron: 600 }));
    expect(each(day, "tipFrom")).toEqual([225, 345]);
    expect(day.lifts).toHaveLength(2);
  });

  it("is given in the order of asking, a small load behind a large one too", () => {
    const day = run(tiny({
      fields: [tinyField({ area: 900 })], trucks: [tinyTrucks(1, { load: 1000 }), tinyTrucks(1, { kind: "Large", load: 2000 }), tinyTrucks(1, { kind: "Small", load: 600 })],
      storages: [tinyBunker({ tippingPlaces: 3, apron: 2000 })],
    }));
    // Full at 25, 95, 130. The large one asks at 295 with 1 t lying there; the small one, which would fit, asks at 330 and stands behind it.
    expect(each(day, "placed")).toEqual([225, 295, 330]);
    expect(each(day, "tipFrom")).toEqual([225, 345, 465]);
  });
});

describe("The tip", () => {
  it("must be over before the load can be spread", () => {
    const day = run(crowd(1));
    expect(steps(day, 0, "tipFrom", "tipped")).toEqual({ tipFrom: 225, tipped: 345 });
    expect(eachLift(day, "spreadFrom")).toEqual([345]);
  });

  it("of loads on two places that end in another order is spread in the order of ending", () => {
    const day = run(tiny({
      fields: [tinyField({ area: 500 })], trucks: [tinyTrucks(1, { kind: "Slow", load: 1000, tip: 300 }), tinyTrucks(1, { kind: "Quick", load: 1000, tip: 60 })],
      storages: [tinyBunker({ tippingPlaces: 2 })],
    }));
    expect(each(day, "tipped")).toEqual([525, 330]);
    expect(day.lifts.map((lift) => lift.trip)).toEqual([1, 0]);
  });
});
