/** Breakdowns in the field and on the road. Without variation the first comes after exactly the mean working time. Instants by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { doings, each, machineNamed, run, steps, sum } from "./reading.ts";
import { SEVEN, tiny, tinyBunker, tinyChopper, tinyField, tinyTrucks } from "./plan.ts";

const fails = (between: number, repair: number) => ({ breakdowns: { between, repair } });
/** One row and one truck of 6 t: cut by 150, at the storage 350, tipped 470. */
const row = (chopper = {}, truck = {}, over = {}) =>
  tiny({ fields: [tinyField({ area: 1500 })], choppers: [tinyChopper(chopper)], trucks: [tinyTrucks(1, { load: 6000, ...truck })], ...over });
/** A row of 60 t, cut in 1500 s. */
const longRow = (chopper = {}, truck = {}, over = {}) => tiny({
  fields: [tinyField({ area: 15_000, rowLength: 3000 })], choppers: [tinyChopper(chopper)], trucks: [tinyTrucks(1, { load: 60_000, ...truck })], ...over,
});

describe("A chopper that breaks down", () => {
  it("in the middle of a load goes on with the remainder when it is mended; the truck stays under the spout", () => {
    const day = run(row(fails(100, 300)));
    expect(steps(day, 0, "fillFrom", "filled")).toEqual({ fillFrom: 0, filled: 450 });
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [100, "broken"], [400, "cutting"]]);
    expect(doings(day, "Tipper 1").slice(0, 2)).toEqual([[0, "filling"], [450, "loaded-road"]]);
    expect(machineNamed(day, "Chopper").seconds).toEqual({ cutting: 150, broken: 300 });
    expect(day.events[0]).toEqual({ kind: "breakdown", at: SEVEN + 100, machine: machineNamed(day, "Chopper").id, until: SEVEN + 400 });
    expect(sum(Object.values(day.chopperWaits[0]!))).toBe(0);
  });

  it.each([
    ["a turn", 160, [[150, "turning"], [160, "broken"], [260, "turning"], [275, "cutting"]], 350],
    ["a changeover", 680, [[670, "changeover"], [680, "broken"], [780, "changeover"], [790, "cutting"]], 865],
  ] as const)("in %s makes the rest of it afterwards", (_, at, rows, filled) => {
    const day = run(tiny({ choppers: [tinyChopper(fails(at, 100))] }));
    expect(doings(day, "Chopper")).toEqual(expect.arrayContaining(rows.map((entry) => [...entry])));
    expect(day.trips[at < 500 ? 0 : 1]!.filled - day.from).toBe(filled);
  });

  it("on its way to the next field arrives so much later", () => {
    const day = run(tiny({ fields: [tinyField({ area: 1500 }), tinyField({ area: 1500 })], trucks: [tinyTrucks(2, { load: 6000 })], choppers: [tinyChopper(fails(700, 100))] }));
    expect(doings(day, "Chopper").slice(1)).toEqual([[150, "moving"], [700, "broken"], [800, "moving"], [1150, "changeover"], [1170, "cutting"]]);
  });

  it("while it waits is broken and does not wait; what it waits is charged and no more", () => {
    const day = run(tiny({ choppers: [tinyChopper(fails(300, 200))] }));
    expect(doings(day, "Chopper").slice(3, 7)).toEqual([[250, "waiting"], [300, "broken"], [500, "waiting"], [670, "changeover"]]);
    expect(machineNamed(day, "Chopper").seconds.waiting).toBe(220);
    expect(day.chopperWaits[0]).toEqual({ hauling: 220, weighing: 0, tipping: 0, spreading: 0, packing: 0 });
  });

  it("while it waits for a truck that stands queued at the storage is charged only what it waits", () => {
    // The first truck is on the scale from 325 to 925, the second in line for it from 495; the first is back at 1145.
    const day = run(tiny({ choppers: [tinyChopper(fails(600, 200))], trucks: [tinyTrucks(2, { load: 5000 })], weighing: { time: 600, lanes: 1 } }));
    expect(doings(day, "Chopper").slice(5, 9)).toEqual([[295, "waiting"], [600, "broken"], [800, "waiting"], [1145, "changeover"]]);
    expect(day.chopperWaits[0]).toEqual({ hauling: 495 - 295 + 1145 - 925, weighing: 600 - 495 + 925 - 800, tipping: 0, spreading: 0, packing: 0 });
  });

  it("breaks down again after as much working time as before, breaks not counted", () => {
    const day = run(longRow(fails(400, 100), {}, { shift: { breaks: [{ at: SEVEN + 450, for: 1000 }] } }));
    // 400 broken, 450-1450 break, mended at 1500; 400 s later broken again, to 2000; and once more from 2400 to 2500.
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [400, "broken"], [1500, "cutting"], [1900, "broken"], [2000, "cutting"], [2400, "broken"], [2500, "cutting"]]);
    expect(steps(day, 0, "filled")).toEqual({ filled: 2800 });
    expect(machineNamed(day, "Chopper").seconds).toEqual({ cutting: 1500, broken: 300, break: 1000 });
  });
});

describe("A truck that breaks down", () => {
  it("under the spout keeps the chopper waiting until it runs again; the waiting is the hauling's", () => {
    const day = run(longRow({}, fails(1000, 300)));
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [1000, "waiting"], [1300, "cutting"]]);
    expect(doings(day, "Tipper 1").slice(0, 3)).toEqual([[0, "filling"], [1000, "broken"], [1300, "filling"]]);
    expect(steps(day, 0, "filled")).toEqual({ filled: 1800 });
    expect(day.chopperWaits[0]).toEqual({ hauling: 300, weighing: 0, tipping: 0, spreading: 0, packing: 0 });
    expect(machineNamed(day, "Chopper").seconds.waiting).toBe(300);
  });

  it("in line at the chopper steps aside and joins again at the tail", () => {
    const day = run(tiny({ fields: [tinyField({ area: 4500 })], trucks: [tinyTrucks(1, { load: 6000 }), tinyTrucks(1, { kind: "Lame", load: 6000, ...fails(50, 30) }), tinyTrucks(1, { kind: "Third", load: 6000 })] }));
    expect(doings(day, "Lame 1").slice(0, 3)).toEqual([[0, "in-line"], [50, "broken"], [80, "in-line"]]);
    expect(day.trips.slice(0, 2).map((trip) => day.machines[trip.truck]!.name)).toEqual(["Tipper 1", "Third 1"]);
  });

  it("in line, alone, is taken by the chopper when it runs again", () => {
    // One row, two trucks of 3 t. The second is broken from 50 to 450; the chopper waits from 75.
    const day = run(tiny({ fields: [tinyField({ area: 1500 })], trucks: [tinyTrucks(1, { load: 3000 }), tinyTrucks(1, { kind: "Lame", load: 3000, ...fails(50, 400) })] }));
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [75, "waiting"], [450, "changeover"], [470, "cutting"], [500, "waiting"], [900, "cutting"]]);
  });

  it("on the road arrives so much later", () => {
    const day = run(row({}, fails(200, 1000)));
    expect(doings(day, "Tipper 1")).toEqual([[0, "filling"], [150, "loaded-road"], [200, "broken"], [1200, "loaded-road"], [1350, "tipping"], [1400, "broken"], [2400, "tipping"]]);
  });

  it("inside the single-lane stretch blocks it, and in line before it steps out", () => {
    const lane = { length: 400, speed: 4, meeting: 0 };
    const trucks = (first: object, second: object) => [tinyTrucks(1, { kind: "First", load: 1000, ...first }), tinyTrucks(1, { kind: "Second", load: 1000, ...second }), tinyTrucks(1, { kind: "Third", load: 1000 })];
    const plan = (first: object, second: object) => tiny({ fields: [tinyField({ area: 750 })], trucks: trucks(first, second), storages: [tinyBunker({ tippingPlaces: 9 })], lane });
    // Full at 25, 70, 115; at the lane 185, 230, 275, all the same way.
    const inside = run(plan(fails(200, 500), {}));
    expect(steps(inside, 0, "inLane", "atScale")).toEqual({ inLane: 185, atScale: 785 });
    expect([steps(inside, 1, "inLane", "atScale"), steps(inside, 2, "inLane")]).toEqual([{ inLane: 230, atScale: 330 }, { inLane: 275 }]);
  });
});

describe("Two at once", () => {
  it("the truck under the spout while the chopper is broken: each is broken as long as it is, then the chopper waits for the truck", () => {
    const day = run(longRow(fails(1000, 100), fails(1050, 300)));
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [1000, "broken"], [1100, "waiting"], [1350, "cutting"]]);
    expect(steps(day, 0, "filled")).toEqual({ filled: 1850 });
    expect(machineNamed(day, "Chopper").seconds).toEqual({ cutting: 1500, broken: 100, waiting: 250 });
  });

  it("the chopper while it waits for the broken truck", () => {
    const day = run(longRow(fails(1100, 100), fails(1000, 300)));
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [1000, "waiting"], [1100, "broken"], [1200, "waiting"], [1300, "cutting"]]);
    expect(steps(day, 0, "filled")).toEqual({ filled: 1800 });
    expect(day.chopperWaits[0]!.hauling).toBe(200);
  });

  it("both at one instant", () => {
    const day = run(longRow(fails(1000, 100), fails(1000, 300)));
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [1000, "broken"], [1100, "waiting"], [1300, "cutting"]]);
    expect(steps(day, 0, "filled")).toEqual({ filled: 1800 });
  });

  it.each([["the chopper", fails(1000, 300), {}, 1200], ["the truck under the spout", {}, fails(1000, 300), 1500]])("a breakdown of %s at the instant of shift end", (_, chopper, truck, atStorage) => {
    const day = run(longRow(chopper, truck, { shift: { end: SEVEN + 1000 } }));
    expect(day.trips.map((trip) => trip.mass)).toEqual([expect.closeTo(40_000, 6)]);
    expect(machineNamed(day, "Chopper").until - SEVEN).toBe(1000);
    expect(steps(day, 0, "filled", "atStorage")).toEqual({ filled: 1000, atStorage });
    expect(day.lifts).toHaveLength(1);
  });

  it("a chopper that is broken at shift end goes home, and the part load with its truck", () => {
    const day = run(row(fails(50, 300), {}, { shift: { end: SEVEN + 100 } }));
    expect(steps(day, 0, "filled", "atStorage")).toEqual({ filled: 100, atStorage: 300 });
    expect(day.trips[0]!.mass).toBeCloseTo(2000, 9);
    expect(each(day, "tipped")).toEqual([420]);
  });
});
