/** What each measure means, on days small enough to be worked by hand. */
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { densityUS, packingFactorUS } from "../../sim/forage/packing.ts";
import { FOOT, INCH, LB_PER_FT3, POUND, US_TON } from "../../sim/forage/us.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { HOUR, plan, roller, SEVEN, tiny, tinyBlade, tinyBunker, tinyTrucks } from "../harvest/plan.ts";
import { lift, machine, madeDay, trip } from "./madeday.ts";

/**
 * One truck and 12 t. The first load, 9 t, is cut by 250, weighed 450-510, tipped by 630, spread by 810. The truck is back at 730, the
 * chopper waiting for it from 250. The second, 3 t, is cut by 825, weighed 1025-1085, tipped by 1205, spread by 1265, rolled until 1865.
 */
const scenario = tiny({ weighing: { time: 60, lanes: 1 } });
const day = rehearseDay(scenario);
const { measures, ...facts } = factsOf(scenario, day);

describe("Measures of a tiny day", () => {
  it("delivery: tipped mass; rate and loads an hour from the start of the first tip to the start of the last, without the first load", () => {
    expect(measures.delivered).toBeCloseTo(12, 9);
    expect(measures.loads).toBe(2);
    const between = (1085 - 510) / HOUR;
    expect(measures.deliveryRate).toBeCloseTo(3 / between, 9);
    expect(measures.loadsPerHour).toBeCloseTo(1 / between, 9);
  });

  it("shares of the chopper's time in the field: cutting, turning, changeover, waiting", () => {
    // 300 s of cutting, 25 of turning, 20 of changeover, waiting from 250 to 730.
    const inField = 300 + 25 + 20 + 480;
    expect(measures.chopperCutting).toBeCloseTo(300 / inField, 9);
    expect(measures.chopperWaiting).toBeCloseTo(480 / inField, 9);
    expect(measures.chopperWaitingOnStorage).toBe(0);
    expect(facts.waits).toEqual({ hauling: 480, weighing: 0, tipping: 0, spreading: 0, packing: 0 });
  });

  it("a truck's cycle is from line to line, its waiting at scale, place and room is what it stands there", () => {
    expect(measures.truckCycle).toBeCloseTo(730 / 60, 9);
    expect(measures.truckWaiting).toBe(0);
  });

  it("fill time runs from the first tip to the last lift closed, the finish from shift start", () => {
    expect(measures.fillTime).toBeCloseTo((1865 - 510) / HOUR, 9);
    expect(measures.finishedAt).toBeCloseTo(1865 / HOUR, 9);
  });

  it("the apron holds a load from the start of its tip to the start of its spreading", () => {
    expect(measures.apronPeak).toBe(9);
    expect(measures.apronMean).toBeCloseTo((9 * 120 + 3 * 120) / (1205 - 510), 9);
  });

  it("packing time per tonne is all true rolling over all tonnes", () => {
    // First lift: roller 810-1265, blade 810-1205; second: both for ten minutes.
    expect(measures.packingTimePerTonne).toBeCloseTo((455 + 395 + 600 + 600) / 60 / 12, 9);
  });

  it("density is dry mass over volume, volume of each lift by the relation; fresh density and pore space follow", () => {
    const density = (effort: { mass: number; seconds: number }[], load: number) => {
      // Heaviest first: the 16 t roller alone, or with the 14 t blade, whichever is more.
      const groups = effort.map((_, k) => effort.slice(0, k + 1)).map((group) => {
        const time = group.reduce((s, e) => s + e.seconds, 0);
        const mean = group.reduce((s, e) => s + e.mass * e.seconds, 0) / time;
        return packingFactorUS(mean / POUND, 0.15 / INCH, 0.34, 1, load / US_TON / (time / HOUR));
      });
      return densityUS(Math.max(...groups), 2.6 / FOOT) * LB_PER_FT3;
    };
    const first = density([{ mass: 16_000, seconds: 455 }, { mass: 14_000, seconds: 395 }], 9000);
    const second = density([{ mass: 16_000, seconds: 600 }, { mass: 14_000, seconds: 600 }], 3000);
    const volume = (9000 * 0.34) / first + (3000 * 0.34) / second;
    const dry = (12_000 * 0.34) / volume;
    expect(measures.dryDensity).toBeCloseTo(dry, 6);
    expect(measures.wetDensity).toBeCloseTo(12_000 / volume, 6);
    // Hafner, Montes & Rotz 2012: 1 - dry / 1600 - (1 - DM) wet / 1000.
    expect(measures.poreSpace).toBeCloseTo(1 - dry / 1600 - (0.66 * (12_000 / volume)) / 1000, 9);
    expect(measures.dryMatterStored).toBeCloseTo(4.08, 9);
    expect(measures.shareUnderTarget).toBe(0);
  });

  it("the share under target is the fresh mass of the lifts that are under it", () => {
    // Lifts of about 245 and 368 kg DM/m3.
    const at = (dryDensity: number) => factsOf({ ...scenario, targets: { ...scenario.targets, dryDensity } }, day).measures.shareUnderTarget;
    expect([at(240), at(300), at(400)]).toEqual([0, 9 / 12, 1]);
  });

  it("pore space is no figure where the relation promises more dry matter than there is room for", () => {
    const squeezed = madeDay({ until: 5000, trips: [trip({ tipFrom: 0 })], lifts: [lift({ rolled: [90_000, 90_000] })] });
    expect(factsOf(plan(), squeezed).measures.poreSpace).toBeNaN();
  });
});

describe("Measures with breaks and queues", () => {
  it("a truck's waiting and cycle count working time only", () => {
    const pause = { at: SEVEN + 500, for: 300 };
    const made = madeDay({ until: 5000, trips: [trip({ arrived: 0, atScale: 400, weighFrom: 900, atStorage: 1000, placed: 1060, tipFrom: 1120, tipped: 1200, back: 1500 })] });
    const { measures } = factsOf(plan({ shift: { breaks: [pause] } }), made);
    expect(measures.truckWaiting).toBeCloseTo((200 + 60 + 60) / 60, 9);
    expect(measures.truckCycle).toBeCloseTo((1500 - 300) / 60, 9);
  });

  it("a truck that never came back has no cycle", () => {
    const made = madeDay({ until: 5000, trips: [trip({ tipFrom: 100 }), trip({ arrived: 0, tipFrom: 50, back: 600 })] });
    expect(factsOf(plan(), made).measures.truckCycle).toBeCloseTo(10, 9);
  });

  it("a load that was never tipped is not delivered", () => {
    const made = madeDay({ until: 5000, trips: [trip({ tipFrom: 0 }), trip({ tipFrom: 3600 }), trip({ tipFrom: 7000, tipped: NaN })] });
    const { measures } = factsOf(plan(), made);
    expect([measures.delivered, measures.loads]).toEqual([32, 2]);
    expect(measures.deliveryRate).toBeCloseTo(16, 9);
  });

  it("the apron's peak does not count what leaves and comes at one instant twice", () => {
    const made = madeDay({
      until: 5000, trips: [trip({ tipFrom: 0, mass: 10_000 }), trip({ tipFrom: 100, mass: 10_000 })],
      lifts: [lift({ mass: 10_000, spreadFrom: 100, opened: 110, closed: 200, rolled: [1, 1] }), lift({ trip: 1, mass: 10_000, spreadFrom: 200, opened: 210, closed: 300, rolled: [1, 1] })],
    });
    const { measures } = factsOf(plan(), made);
    expect([measures.apronPeak, measures.apronMean]).toEqual([10, 10]);
  });

  it("waits of all choppers are added, and shared by their time in the field", () => {
    const chopper = (index: number, seconds: object) => machine({ kind: "chopper", index, seconds, until: SEVEN + 1000 });
    const made = madeDay({
      until: 1000, machines: [chopper(0, { cutting: 700, waiting: 100, moving: 200 }), chopper(1, { cutting: 500, turning: 100, waiting: 300, broken: 100 })],
      chopperWaits: [{ hauling: 100, weighing: 0, tipping: 0, spreading: 0, packing: 0 }, { hauling: 0, weighing: 50, tipping: 60, spreading: 70, packing: 120 }],
      trips: [trip({ tipFrom: 0 })],
    });
    const two = plan({ choppers: [plan().choppers[0]!, plan().choppers[0]!] });
    const { measures, waits } = factsOf(two, made);
    expect(waits).toEqual({ hauling: 100, weighing: 50, tipping: 60, spreading: 70, packing: 120 });
    const inField = 700 + 100 + 500 + 100 + 300;
    expect([measures.chopperWaiting, measures.chopperCutting, measures.chopperWaitingOnStorage]).toEqual([400 / inField, 1200 / inField, 300 / inField]);
  });
});

describe("A day keeps pace", () => {
  const under = (whenBehind: "hold" | "bury" | "ease", over = {}) => {
    const worked = plan({ packing: { whenBehind }, ...over });
    return factsOf(worked, rehearseDay(worked));
  };

  it("when it is never behind, the chopper loses under 5 % to the storage and 90 % of the mass is at target", () => {
    const strong = [tinyBlade({ spreads: 100 }), ...Array.from({ length: 3 }, (_, i) => roller(22_000, { name: `Roller ${i}` }))];
    const kept = under("bury", { storages: [{ ...plan().storages[0]!, tractors: strong }] });
    expect(kept).toMatchObject({ keepsPace: true, behindFrom: null });
    expect(kept.measures.shareUnderTarget).toBeLessThanOrEqual(0.1);
  });

  it("and not when one of the three fails", () => {
    // Behind, though bury never lets anybody stand.
    expect(under("bury")).toMatchObject({ keepsPace: false });
    expect(under("bury").measures.chopperWaitingOnStorage).toBe(0);
    // Too few rollers but one truck: never behind, nobody stands for the storage; a short finish leaves the lifts loose.
    const loose = tiny({ targets: { dryDensity: 600 }, packing: { finish: 0 }, trucks: [tinyTrucks(1)], storages: [tinyBunker()] });
    const facts = factsOf(loose, rehearseDay(loose));
    expect(facts.measures.shareUnderTarget).toBe(1);
    expect(facts.keepsPace).toBe(false);
    // Never behind and dense, but a slow tip keeps the chopper standing.
    const slow = under("hold", { trucks: [{ ...plan().trucks[0]!, tip: 1800 }] });
    expect(slow.behindFrom).toBeNull();
    expect(slow.measures.shareUnderTarget).toBe(0);
    expect(slow.measures.chopperWaitingOnStorage).toBeGreaterThan(0.05);
    expect(slow.keepsPace).toBe(false);
  });
});
