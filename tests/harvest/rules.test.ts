/** What the crew does when packing falls behind: hold, and hold until the apron is full. Instants by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { storedIn } from "../../sim/findings/stored.ts";
import { densityAfter, secondsFor } from "./relation.ts";
import { each, eachLift, run } from "./reading.ts";
import { plan, roller, tiny, tinyBlade, tinyBunker, tinyField, tinyTrucks } from "./plan.ts";

const crew = { mass: 16_000, load: 1000, dryMatter: 0.34, layer: 0.15, depth: 2.6 };
/** One tractor rolls all the time, the blade only pushes, 1 t in 20 s; loads of 1 t, tipped from 345 on every 120 s on one place. */
const crowd = (count: number, rule: "hold" | "hold-then-bury" | "bury", target: number, apron = 1e6) => tiny({
  fields: [tinyField({ area: 250 * count })], trucks: [tinyTrucks(count, { load: 1000 })],
  storages: [tinyBunker({ apron, tractors: [tinyBlade({ rolling: 0 }), roller()] })], packing: { whenBehind: rule }, targets: { dryDensity: target },
});

describe("Under hold", () => {
  it("the next load is spread at the earliest moment at which the lift, with what is rolled while that is spread, has the target density", () => {
    const day = run(crowd(3, "hold", densityAfter(400, crew)));
    // The first lies at 365; 400 s of rolling end at 765; the push of 20 s begins 20 s before that.
    expect(eachLift(day, "spreadFrom")).toEqual([345, expect.closeTo(745, 6), expect.closeTo(1145, 6)]);
    expect(day.lifts.map((lift) => lift.rolled[1])).toEqual([expect.closeTo(400, 6), expect.closeTo(400, 6), 600]);
  });

  it("a lift that is dense enough already keeps nobody waiting", () => {
    const day = run(crowd(3, "hold", densityAfter(100, crew)));
    expect(eachLift(day, "spreadFrom")).toEqual(each(day, "tipped"));
  });

  it("nobody waits when the target is below what no packing gives", () => {
    const unpacked = densityAfter(0, crew);
    const day = run(tiny({ storages: [tinyBunker({ tractors: [tinyBlade({ rolling: 0 })] })], packing: { whenBehind: "hold" }, targets: { dryDensity: unpacked * 0.999 } }));
    expect(eachLift(day, "spreadFrom")).toEqual(each(day, "tipped"));
  });

  it("blade and roller alike share the work: the blade all but its pushing", () => {
    const day = run({ ...crowd(3, "hold", densityAfter(400, crew)), storages: [tinyBunker({ tractors: [tinyBlade({ mass: 16_000 }), roller()] })] });
    // T from lying to lying: the roller gives T, the blade T - 20, together 400.
    expect(day.lifts.map((lift) => lift.opened - day.from)).toEqual([365, expect.closeTo(365 + 210, 6), expect.closeTo(365 + 420, 6)]);
    expect([...day.lifts[0]!.rolled]).toEqual([expect.closeTo(190, 6), expect.closeTo(210, 6)]);
  });

  it("a part load waits less and keeps the next waiting in proportion to its mass", () => {
    const day = run(tiny({
      fields: [tinyField({ area: 500 })], trucks: [tinyTrucks(1, { load: 500 }), tinyTrucks(1, { kind: "Whole", load: 1000 }), tinyTrucks(1, { kind: "Rest", load: 500 })],
      storages: [tinyBunker({ tractors: [tinyBlade({ rolling: 0 }), roller()] })], packing: { whenBehind: "hold" }, targets: { dryDensity: densityAfter(400, crew) },
    }));
    // Half the mass, half the seconds for the same density.
    expect(day.lifts[0]!.closed - day.lifts[0]!.opened).toBeCloseTo(200, 6);
    expect(day.lifts[1]!.closed - day.lifts[1]!.opened).toBeCloseTo(400, 6);
  });

  it("packs for the planned depth and every lift but the last ends at the target", () => {
    const scenario = plan({ packing: { whenBehind: "hold" } });
    const { densities } = storedIn(run(scenario), scenario, 0);
    for (const density of densities.slice(0, -1)) expect(density).toBeCloseTo(240, 6);
    expect(densities.at(-1)).toBeGreaterThan(240);
  });

  it("a layer term that is switched off packs as for 15 cm, whatever the layer", () => {
    const thin = run({ ...crowd(3, "hold", densityAfter(400, crew)), packing: { layer: 0.1, layerTerm: false, wedgeRoom: "off", whenBehind: "hold", finish: 0 } });
    // The push takes 30 s at 10 cm; the rolling from lying to lying is the same 400 s.
    expect(thin.lifts[1]!.opened - thin.lifts[0]!.opened).toBeCloseTo(400, 6);
    const seen = run({ ...crowd(3, "hold", densityAfter(400, crew)), packing: { layer: 0.1, layerTerm: true, wedgeRoom: "off", whenBehind: "hold", finish: 0 } });
    expect(seen.lifts[1]!.opened - seen.lifts[0]!.opened).toBeCloseTo(400 * (0.1 / 0.15) ** 2, 6);
  });

  it("inverts the relation as a hand would", () => {
    expect(secondsFor(densityAfter(400, crew), crew)).toBeCloseTo(400, 6);
  });
});

describe("Under hold-then-bury", () => {
  it("the crew buries from the moment a truck on a place has to wait for room, in the middle of a wait for packing, until the apron is at most half full", () => {
    const day = run(crowd(6, "hold-then-bury", densityAfter(900, crew), 3000));
    // Loads 2, 3, 4 fill the apron by 705, when load 5 gets the place and waits: load 2 is spread at once, with two ready behind it.
    // Then load 3 with one behind it. Taking load 4 leaves load 5 alone, 1 t of 3: the crew holds again.
    expect(each(day, "placed").slice(0, 5)).toEqual([225, 345, 465, 585, 705]);
    expect(each(day, "tipFrom").slice(0, 5)).toEqual([225, 345, 465, 585, 705]);
    expect(eachLift(day, "spreadFrom").slice(0, 4)).toEqual([345, 705, 712.5, 722.5]);
    expect(day.lifts.slice(0, 4).map((lift) => lift.layer)).toEqual([0.15, 0.4, 0.3, 0.15]);
    // Lift 4 lies at 742.5 and is held to the target: 900 s less the 20 s of the next push.
    expect(day.lifts[4]!.spreadFrom - day.from).toBeCloseTo(742.5 + 880, 6);
    expect(day.lifts[4]!.layer).toBe(0.15);
  });

  it("a full apron alone is no reason to bury as long as no truck waits for room", () => {
    const day = run(crowd(4, "hold-then-bury", densityAfter(900, crew), 3000));
    expect(eachLift(day, "spreadFrom")).toEqual([345, expect.closeTo(1245, 6), expect.closeTo(2145, 6), expect.closeTo(3045, 6)]);
  });

  it("exactly half full is half empty", () => {
    const day = run(crowd(6, "hold-then-bury", densityAfter(600, crew), 4000));
    // Load 6 waits at 825; loads 2 and 3 are taken with 3 t lying there; load 4 leaves 2 t of 4, with one ready behind it.
    expect(eachLift(day, "spreadFrom").slice(0, 4)).toEqual([345, 825, 832.5, 840]);
    expect(day.lifts.slice(0, 4).map((lift) => lift.layer)).toEqual([0.15, 0.4, 0.4, 0.3]);
    // The lift in hand is thick; the crew holds for it as at the set layer: 600 s from 850 on.
    expect(day.lifts[4]!.spreadFrom - day.from).toBeCloseTo(850 + 580, 6);
    expect(day.lifts[4]!.layer).toBe(0.15);
  });

  it("works as hold does while the apron suffices, and as bury on an apron for a single load", () => {
    const target = densityAfter(400, crew);
    expect(run(crowd(4, "hold-then-bury", target)).lifts).toEqual(run(crowd(4, "hold", target)).lifts);
    const tight = run(crowd(4, "hold-then-bury", densityAfter(100_000, crew), 1000));
    expect(eachLift(tight, "spreadFrom")).toEqual([345, 465, 585, expect.any(Number)]);
  });
});

describe("Under bury", () => {
  it("the target changes nothing about the day", () => {
    expect(run(crowd(5, "bury", 400)).lifts).toEqual(run(crowd(5, "bury", 100)).lifts);
  });
});
