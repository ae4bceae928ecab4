/** Breakdowns at the storage: a truck in a line, on the scale, at the tip; a blade, a roller. Instants by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { doings, each, eachLift, machineNamed, run, steps } from "./reading.ts";
import { roller, SEVEN, tiny, tinyBlade, tinyBunker, tinyChopper, tinyField, tinyTrucks } from "./plan.ts";

const fails = (between: number, repair: number) => ({ breakdowns: { between, repair } });
/** Three loads of 1 t that stand at the storage, or its scale, at 225, 270 and 315; the second truck is the lame one. */
const three = (lame: object, over = {}, storage = {}) => tiny({
  fields: [tinyField({ area: 750 })],
  trucks: [tinyTrucks(1, { kind: "First", load: 1000 }), tinyTrucks(1, { kind: "Lame", load: 1000, ...lame }), tinyTrucks(1, { kind: "Third", load: 1000 })],
  storages: [tinyBunker(storage)], ...over,
});
const scale = { weighing: { time: 60, lanes: 1 } };

describe("A truck that breaks down at the storage", () => {
  it("in line at the scale steps out and joins again at the tail when it runs", () => {
    const day = run(three(fails(275, 105), scale));
    expect(doings(day, "Lame 1").slice(3)).toEqual([[270, "scale-line"], [275, "broken"], [380, "weighing"], [440, "place-line"], [525, "tipping"]]);
    expect(each(day, "weighFrom")).toEqual([225, 380, 315]);
    expect(each(day, "weighed")).toEqual([285, 440, 375]);
  });

  it("on the scale keeps the others from it until it runs and is weighed", () => {
    const day = run(three(fails(300, 200), scale));
    // On the scale from 285; 15 s done; 500 to 545 the rest.
    expect(each(day, "weighFrom")).toEqual([225, 285, 545]);
    expect(each(day, "weighed")).toEqual([285, 545, 605]);
  });

  it("in line for a tipping place lets the next go first", () => {
    const day = run(three(fails(300, 100)));
    expect(doings(day, "Lame 1").slice(3)).toEqual([[270, "place-line"], [300, "broken"], [400, "place-line"], [465, "tipping"]]);
    expect(each(day, "placed")).toEqual([225, 465, 345]);
  });

  it("while it waits for room keeps its place but not its turn for the room", () => {
    const day = run(three(fails(300, 100), {}, { tippingPlaces: 2, apron: 1500 }));
    // On the place from 270. At 345 the apron has room for one: the third truck, come to the other place that instant, takes it.
    expect(doings(day, "Lame 1").slice(3)).toEqual([[270, "room-wait"], [300, "broken"], [400, "room-wait"], [465, "tipping"]]);
    expect(each(day, "placed")).toEqual([225, 270, 345]);
    expect(each(day, "tipFrom")).toEqual([225, 465, 345]);
  });

  it("while it tips goes on tipping when it runs; the place stays taken", () => {
    const day = run(three(fails(400, 300)));
    expect(steps(day, 1, "tipFrom", "tipped")).toEqual({ tipFrom: 345, tipped: 765 });
    expect(steps(day, 2, "placed")).toEqual({ placed: 765 });
    expect(eachLift(day, "spreadFrom")).toEqual([345, 765, 885]);
  });

  it("in line for the single-lane stretch steps out of it and joins again at the tail", () => {
    // The first drives out, 595 to 995. The lame one comes at 870, the third at 915; struck at 900, the lame one joins again at 1200.
    const lane = { length: 400, speed: 1, meeting: 0 };
    const day = run(tiny({
      fields: [tinyField({ area: 30_000 })], storages: [tinyBunker({ tippingPlaces: 9 })], lane,
      trucks: [
        tinyTrucks(1, { kind: "First", load: 1000, tip: 10 }), tinyTrucks(1, { kind: "Lame", load: 1000, loadedSpeed: 2, ...fails(900, 300) }),
        tinyTrucks(1, { kind: "Third", load: 1000, loadedSpeed: 2 }),
      ],
    }));
    expect(steps(day, 0, "inLane", "atScale", "tipped", "back")).toEqual({ inLane: 185, atScale: 585, tipped: 595, back: 1075 });
    expect(steps(day, 1, "atLane", "inLane", "atScale")).toEqual({ atLane: 870, inLane: 1200, atScale: 1600 });
    expect(steps(day, 2, "atLane", "inLane", "atScale")).toEqual({ atLane: 915, inLane: 995, atScale: 1395 });
  });

  it("does not count as queued while it is broken: the chopper then waits for the hauling", () => {
    // Scale of ten minutes: the first truck from 325, the second in line for it from 495, broken from 600 to 700. The chopper waits 295-1145.
    const day = run(tiny({ trucks: [tinyTrucks(1, { load: 5000 }), tinyTrucks(1, { kind: "Lame", load: 5000, ...fails(600, 100) })], weighing: { time: 600, lanes: 1 } }));
    expect(machineNamed(day, "Chopper").seconds.waiting).toBe(1145 - 295);
    expect(day.chopperWaits[0]).toEqual({ hauling: 495 - 295 + 100 + 1145 - 925, weighing: 600 - 495 + 925 - 700, tipping: 0, spreading: 0, packing: 0 });
  });
});

describe("A blade that breaks down", () => {
  const oneLoad = (tractors: ReturnType<typeof roller>[], over = {}) =>
    tiny({ fields: [tinyField({ area: 1500 })], trucks: [tinyTrucks(1, { load: 6000 })], storages: [tinyBunker({ tractors })], ...over });

  it("in the middle of a push goes on with the remainder when it is mended", () => {
    // Pushing from 470, 120 s; 30 s done at 500.
    const day = run(oneLoad([tinyBlade(fails(500, 200)), roller()]));
    expect([eachLift(day, "spreadFrom"), eachLift(day, "opened")]).toEqual([[470], [790]]);
    expect(doings(day, "Blade").slice(0, 5)).toEqual([[0, "standing"], [470, "pushing"], [500, "broken"], [700, "pushing"], [790, "rolling"]]);
  });

  it("leaves the other blade to push alone, slower", () => {
    const day = run(oneLoad([tinyBlade(fails(500, 2000)), tinyBlade({ name: "Second blade", spreads: 25 })]));
    // 75 kg/s from 470, 2250 kg by 500; the other 3750 at 25 kg/s.
    expect(eachLift(day, "opened")).toEqual([650]);
  });

  it("before a load is tipped keeps it on the apron until a blade runs, under bury too, and the layer is settled then", () => {
    // Five loads of 1 t, tipped by 345, 390, 435, 480 and 525; the blade is broken from 300 to 500.
    const crowd = tiny({
      fields: [tinyField({ area: 1250 })], trucks: [tinyTrucks(5, { load: 1000 })],
      storages: [tinyBunker({ tippingPlaces: 9, apron: 3000, tractors: [tinyBlade(fails(300, 200)), roller()] })],
    });
    const day = run(crowd);
    expect(eachLift(day, "spreadFrom")[0]).toBe(500);
    // Three loads lie there, two behind the first: 45 cm, cut to 40. The fourth truck has room only when the first is taken.
    expect(day.lifts[0]!.layer).toBe(0.4);
    expect(each(day, "tipFrom")).toEqual([225, 270, 315, 500, 507.5]);
  });

  it("rolls no lift while it is broken; nor does a roller", () => {
    // Lift open from 590, finish of 600 s to 1190. Blade broken from 700 to 900, roller from 1000 on.
    const day = run(oneLoad([tinyBlade(fails(700, 200)), roller(16_000, fails(1000, 9000))]));
    expect([...day.lifts[0]!.rolled]).toEqual([110 + 290, 410]);
    expect(doings(day, "Roller").slice(0, 3)).toEqual([[0, "standing"], [590, "rolling"], [1000, "broken"]]);
  });

  it("lets a lift under hold wait for it", () => {
    // Two loads of 3 t, tipped by 395 and 515. The blade is broken from 500 to 2000; the first lift would have been dense enough.
    const day = run(tiny({
      fields: [tinyField({ area: 1500 })], trucks: [tinyTrucks(2, { load: 3000 })], packing: { whenBehind: "hold" }, targets: { dryDensity: 150 },
      storages: [tinyBunker({ tractors: [tinyBlade(fails(500, 1500)), roller()] })],
    }));
    expect(eachLift(day, "spreadFrom")).toEqual([395, 2000]);
  });
});

describe("The crew's share of its full packing rate", () => {
  it("is one in the morning, less when a tractor is away, nothing without a blade, and one again", () => {
    const tractors = [tinyBlade({ ...fails(2000, 500), spreads: 1e6 }), roller(14_000, fails(1000, 500)), roller(14_000, { name: "Other" })];
    const day = run(tiny({ fields: [tinyField({ area: 30_000 })], storages: [tinyBunker({ tractors })], packing: { whenBehind: "hold" } }));
    const rows = day.crew.filter((change) => change.at - SEVEN < 2500).map((change) => [change.at - SEVEN, change.pays]);
    // Equal tractors, rolling all the time: two of three do two thirds of it. (Spreading takes no time to speak of.)
    expect(rows).toEqual([[0, 1], [1000, expect.closeTo(2 / 3, 3)], [1500, 1], [2000, 0]]);
  });
});

describe("A breakdown's luck", () => {
  it("belongs to the machine: another of the same name at another storage leaves it alone", () => {
    const at = (second: object) => run(tiny({
      fields: [tinyField({ area: 30_000 }), tinyField({ area: 30_000, storages: [1] })], choppers: [tinyChopper(), tinyChopper({ name: "Other" })], trucks: [tinyTrucks(2)],
      storages: [tinyBunker({ tractors: [tinyBlade(), roller(16_000, fails(3000, 300))] }), tinyBunker({ name: "South bunker", tractors: [tinyBlade(), roller(16_000, second)] })],
      variation: { ...tiny().variation, tip: { kind: "lognormal", cv: 0.1 } },
    }));
    const struck = (day: ReturnType<typeof run>) => {
      const id = day.machines.findIndex((machine) => machine.name === "Roller" && machine.storage === 0);
      return day.events.flatMap((event) => (event.kind === "breakdown" && event.machine === id ? [[event.at, event.until]] : []));
    };
    const alone = struck(at({}));
    expect(alone.length).toBeGreaterThan(0);
    expect(struck(at(fails(1000, 100))).slice(0, 1)).toEqual(alone.slice(0, 1));
  });
});
