/** Spreading and rolling: blades, layers, open and closed lifts, breaks. Every instant is worked by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { each, eachLift, machineNamed, run, steps } from "./reading.ts";
import { roller, SEVEN, tiny, tinyBlade, tinyBunker, tinyChopper, tinyField, tinyTrucks } from "./plan.ts";

/** One load of 6 t, tipped by 470. */
const oneLoad = (over = {}, packing = {}) =>
  tiny({ fields: [tinyField({ area: 1500 })], trucks: [tinyTrucks(1, { load: 6000 })], storages: [tinyBunker(over)], packing });
/** Two loads of 3 t, tipped by 395 and, on the same place, 515. */
const twoLoads = (over = {}, packing = {}) =>
  tiny({ fields: [tinyField({ area: 1500 })], trucks: [tinyTrucks(2, { load: 3000 })], storages: [tinyBunker(over)], packing });

describe("Pushing", () => {
  it("takes mass over rate at the layer of 15 cm that the rate is given for", () => {
    expect(eachLift(run(oneLoad()), "opened")).toEqual([470 + 120]);
  });

  it.each([[0.075, 240], [0.1, 180], [0.3, 60]])("at a layer of %d m goes in proportion to the layer: %d s", (layer, seconds) => {
    const day = run(oneLoad({}, { layer }));
    expect(day.lifts[0]!.opened - day.lifts[0]!.spreadFrom).toBeCloseTo(seconds, 9);
    expect(day.lifts[0]!.layer).toBe(layer);
  });

  it("is done by all blades together on one load: their rates add", () => {
    const day = run(oneLoad({ tractors: [tinyBlade(), tinyBlade({ name: "Second blade", spreads: 25 }), roller()] }));
    expect(eachLift(day, "opened")).toEqual([470 + 80]);
    expect([machineNamed(day, "Blade").mass, machineNamed(day, "Second blade").mass]).toEqual([4000, 2000]);
  });

  it("takes the loads one after another", () => {
    const day = run(twoLoads());
    expect([eachLift(day, "spreadFrom"), eachLift(day, "opened")]).toEqual([[395, 515], [455, 575]]);
  });
});

describe("A lift", () => {
  it("is open from lying until the next one lies on it, the last until the finish is over", () => {
    const day = run(twoLoads({}, { finish: 300 }));
    expect([eachLift(day, "opened"), eachLift(day, "closed")]).toEqual([[455, 575], [575, 875]]);
  });

  it("is rolled by every machine but the blades while the next is pushed, by all between, each by its share", () => {
    const day = run(twoLoads({ tractors: [tinyBlade({ rolling: 0.5 }), roller(16_000, { rolling: 0.8 }), roller(9000, { name: "Light" })] }, { finish: 300 }));
    expect(day.lifts.map((lift) => [...lift.rolled])).toEqual([[0.5 * 60, 0.8 * 120, 120], [150, 240, 300]]);
  });

  it("that was the only one is rolled for the finishing time and no more", () => {
    const day = run(oneLoad({}, { finish: 0 }));
    expect([...day.lifts[0]!.rolled]).toEqual([0, 0]);
    expect(day.until - SEVEN).toBe(590);
  });
});

describe("Under bury", () => {
  /** A slow blade: 1 t in 200 s at the set layer; loads of 1 t tipped 120 s apart by two places, 60 s apart. */
  const pile = (count: number, layer: number) => tiny({
    fields: [tinyField({ area: 250 * count })], choppers: [tinyChopper({ changeover: 5 })], trucks: [tinyTrucks(count, { load: 1000 })],
    storages: [tinyBunker({ tippingPlaces: 9, tractors: [tinyBlade({ spreads: 0.15 / layer * 2 }), roller()] })], packing: { layer },
  });

  it("the next load is spread as soon as it lies there", () => {
    const day = run(twoLoads());
    expect(eachLift(day, "spreadFrom")).toEqual(each(day, "tipped"));
  });

  it("the layer grows with every further load that lies ready, and is the set one when none does, the last load too", () => {
    const day = run(pile(4, 0.1));
    // Tipped by 345, 375, 405, 435; 500 s at the set layer: the second finds two behind it, and so on down.
    expect(each(day, "tipped")).toEqual([345, 375, 405, 435]);
    expect(day.lifts.map((lift) => lift.layer)).toEqual([0.1, expect.closeTo(0.3, 12), expect.closeTo(0.2, 12), 0.1]);
    expect(eachLift(day, "spreadFrom")).toEqual([345, 845, expect.closeTo(845 + 500 / 3, 9), expect.closeTo(845 + 500 / 3 + 250, 9)]);
  });

  it("the layer is at most 40 cm", () => {
    const day = run(pile(8, 0.1));
    expect(day.lifts.map((lift) => lift.layer).slice(0, 5)).toEqual([0.1, 0.4, 0.4, 0.4, 0.4]);
  });

  it("a set layer above 40 cm stays as it is", () => {
    expect(run(pile(4, 0.5)).lifts.map((lift) => lift.layer)).toEqual([0.5, 0.5, 0.5, 0.5]);
  });

  it("only loads whose tip is over count", () => {
    // The second load's tip ends at 515; the first one's spreading starts at 395 while it is still tipping.
    const day = run(twoLoads({ tippingPlaces: 2 }));
    expect(each(day, "tipped")).toEqual([395, 490]);
    expect(day.lifts.map((lift) => lift.layer)).toEqual([0.15, 0.15]);
  });
});

describe("A break", () => {
  it("stops everybody, who go on with the remainder; it is a state of its own", () => {
    // From 100 to 400: the chopper has cut 100 of 150 s; from 500 on the truck has driven 50 of 200 s when the second break comes.
    const day = run(tiny({
      fields: [tinyField({ area: 1500 })], trucks: [tinyTrucks(1, { load: 6000 })], shift: { breaks: [{ at: SEVEN + 100, for: 300 }, { at: SEVEN + 500, for: 100 }] },
    }));
    expect(steps(day, 0, "fillFrom", "filled", "atStorage", "tipped")).toEqual({ fillFrom: 0, filled: 450, atStorage: 750, tipped: 870 });
    expect(machineNamed(day, "Chopper").seconds).toEqual({ cutting: 150, break: 300 });
    expect(machineNamed(day, "Tipper 1").seconds).toEqual({ filling: 150, "loaded-road": 200, tipping: 120, break: 400 });
    expect(machineNamed(day, "Roller").seconds.break).toBe(400);
  });

  it("stops pushing, rolling and the finishing time", () => {
    // Pushing 470-590 with a break of 60 s in it; rolling from 650 with a break of 200 s in it.
    const day = run(tiny({
      fields: [tinyField({ area: 1500 })], trucks: [tinyTrucks(1, { load: 6000 })], shift: { breaks: [{ at: SEVEN + 500, for: 60 }, { at: SEVEN + 700, for: 200 }] },
    }));
    expect([eachLift(day, "opened"), eachLift(day, "closed")]).toEqual([[650], [1450]]);
    expect([...day.lifts[0]!.rolled]).toEqual([600, 600]);
  });

  it("that begins at the instant work is done finds it done", () => {
    const day = run(tiny({ fields: [tinyField({ area: 1500 })], trucks: [tinyTrucks(1, { load: 6000 })], shift: { breaks: [{ at: SEVEN + 150, for: 100 }] } }));
    expect(steps(day, 0, "filled", "atStorage")).toEqual({ filled: 150, atStorage: 450 });
  });

  it("does not count as waiting, of the chopper or of a lift for its packing", () => {
    const scenario = tiny({ shift: { breaks: [{ at: SEVEN + 300, for: 100 }] } });
    const day = run(scenario);
    // Waits from 250 to 770, of which 100 s are a break.
    expect(machineNamed(day, "Chopper").seconds.waiting).toBe(420);
    expect(day.chopperWaits[0]).toEqual({ hauling: 420, weighing: 0, tipping: 0, spreading: 0, packing: 0 });
  });
});
