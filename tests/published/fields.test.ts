/** Field and road against print: field capacity, the share of the chopper's time that is chopping, and fleets whose output is known by arithmetic. */
import { describe, expect, it } from "vitest";
import { acresPerHour, areaRate } from "../../sim/forage/capacity.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { example } from "../scenarios/example.ts";
import { soundScenario } from "./daytext.ts";
import { expectPrinted } from "./printed.ts";

const ACRE = 43_560 * 0.3048 ** 2;

/** A clamp that never keeps anybody waiting. */
const openClamp = {
  storage: [{ form: "bunker", width: "40 m", length: "200 m", height: "4 m", apron: "5000 t", tippingPlaces: 20 }],
  packing: { tractors: [{ name: "Blade", mass: "16 t", spreads: "2000 t/h" }], whenBehind: "bury" },
  shift: { start: "00:00", end: "24:00" },
  variation: "none",
} as const;

/**
 * Iowa State University Extension PM 696, Estimating field capacity of farm machines: width, speed and efficiency give acres an hour (constant
 * 8.25, ASABE EP496). There the efficiency goes in; in the rehearsed day it comes out, here of the turns alone: fifty rows, 49 turns, as long as the
 * printed efficiency leaves for them. Trucks are so many and so large that the chopper never waits.
 */
const CAPACITY = [
  { widthFt: 40, mph: 6, efficiency: 0.7, acPerH: "20.4" },
  { widthFt: 10, mph: 5, efficiency: 0.63, acPerH: "3.8" },
  { widthFt: 30, mph: 6, efficiency: 0.6, acPerH: "13.1" },
];
const ROWS = 50;
const ROW_FT = 1320;

function capacityDay({ widthFt, mph, efficiency }: (typeof CAPACITY)[number]) {
  const row = (ROW_FT / 5280 / mph) * 3600;
  const turn = (row * ROWS * (1 / efficiency - 1)) / (ROWS - 1);
  return soundScenario({
    name: "Field capacity",
    fields: [{ area: `${(widthFt * ROW_FT * ROWS) / 43_560} acre`, yield: "10 ton/acre", distance: "0 mi", rowLength: `${ROW_FT} ft` }],
    choppers: [{ width: `${widthFt} ft`, speed: `${mph} mph`, throughput: "900 ton/h", turnTime: `${turn} s`, changeover: "0 s" }],
    trucks: [{ count: 20, load: "40 ton", loaded: "30 mph", empty: "30 mph", tip: "0 min" }],
    ...openClamp,
  });
}

describe("field capacity of a rehearsed day, Iowa State University Extension PM 696", () => {
  it.each(CAPACITY)("is $acPerH ac/h for $widthFt ft at $mph mph when the turns leave an efficiency of $efficiency", (row) => {
    const scenario = capacityDay(row);
    const { measures, machines } = rehearse(scenario).findings;
    const { cutting = 0, turning = 0, waiting = 0, changeover = 0 } = machines.find(({ kind }) => kind === "chopper")!.hours;
    expect(waiting).toBe(0);
    const inField = cutting + turning + changeover;
    const area = scenario.fields[0]!.area;
    const rate = area / (inField * 3600);

    const simulated = measures.chopperCutting!.mean;
    expect(Math.abs(simulated / row.efficiency - 1)).toBeLessThan(1e-9);
    expect(Math.abs(rate / areaRate(scenario.choppers[0]!.width, scenario.choppers[0]!.speed, simulated) - 1)).toBeLessThan(1e-9);
    expect(Math.abs((rate * 3600) / ACRE / acresPerHour(row.widthFt, row.mph, simulated) - 1)).toBeLessThan(1e-9);
    expectPrinted((rate * 3600) / ACRE, row.acPerH);
  });
});

const contractor = example("contractor-corn-day");
const chopping = rehearse(contractor).findings.measures.chopperCutting!.mean;

describe("the share of a chopper's time in the field that is chopping", () => {
  it(`is ${(100 * chopping).toFixed(1)} % on a contractor's day without waiting, as by hand; about 85 % was found on seven farms with wagons alongside (Harrigan 2003, Applied Engineering in Agriculture 19(4), abstract)`, () => {
    // A 16 t load is cut in 6 min at 160 t/h; 20 s of changeover and 16 / 11.34 of a turn of 25 s come on top.
    const byHand = 360 / (360 + 20 + 25 * (16 / (6 * 420 * 4.5e-3)));
    expect(Math.abs(chopping / byHand - 1)).toBeLessThan(0.002);
  });
});

interface Loop {
  readonly trucks: number;
  /** min */ readonly fill: number;
  readonly road: number;
  readonly tip: number;
  /** t */ readonly load: number;
  readonly loads: number;
  readonly places: number;
}

/** Trucks in a closed loop: filled in so many minutes, on the road for so many in all, tipped in so many. The field holds a whole number of loads. */
function loopDay({ trucks, fill, road, tip, load, loads, places }: Loop) {
  const yieldPerHa = 25;
  const rate = (load / fill) * 60;
  return soundScenario({
    name: "Trucks in a loop",
    fields: [{ area: `${(load * loads) / yieldPerHa} ha`, yield: `${yieldPerHa} t/ha`, distance: `${road / 4} km`, rowLength: "500 m" }],
    choppers: [{ width: "6 m", speed: `${(rate / yieldPerHa / 6) * 10} km/h`, throughput: "900 t/h", turnTime: "0 s", changeover: "0 s" }],
    trucks: [{ count: trucks, load: `${load} t`, loaded: "30 km/h", empty: "30 km/h", tip: `${tip} min` }],
    ...openClamp,
    storage: [{ ...openClamp.storage[0], tippingPlaces: places }],
  });
}

/**
 * Earthmoving course example: a truck's cycle takes 39.5 min, the loader 5.5 min a load of 8.25 m3 (from the printed figures); m3 an hour by the
 * number of trucks. Here a chopper is the loader and a tonne stands for a cubic metre. 85 loads are the first and then twelve or fourteen
 * whole rounds of seven or six trucks.
 */
const FLEET = { cycle: 39.5, loader: 5.5, volume: 8.25, printed: [[6, "75.19"], [7, "87.72"], [8, "90"]] } as const;

/** One chopper, one tipping place: load 6 min, road 24 min in all, tip 4 min; loads an hour by trucks, min(N / 34, 1 / 6) a minute. 31 loads are the first and whole rounds of 1, 3 or 6 trucks. */
const TRUCK_LOOP = { load: 6, road: 24, tip: 4, printed: [[1, "1.7647"], [3, "5.2941"], [6, "10.0"]] } as const;

describe("trucks that feed a clamp, without variation", () => {
  it.each(FLEET.printed)("bring what %i trucks move in the printed earthmoving example, %s an hour", (trucks, printed) => {
    const tip = 4;
    const { measures } = rehearse(loopDay({
      trucks, fill: FLEET.loader, road: FLEET.cycle - FLEET.loader - tip, tip, load: FLEET.volume, loads: 85, places: 20,
    })).findings;
    expect(measures.loads!.mean).toBe(85);
    expectPrinted(measures.deliveryRate!.mean, printed);
    const exact = 60 * FLEET.volume * Math.min(trucks / FLEET.cycle, 1 / FLEET.loader);
    expect(Math.abs(measures.deliveryRate!.mean / exact - 1)).toBeLessThan(1e-9);
  });

  it.each(TRUCK_LOOP.printed)("make in a loop of %i trucks %s loads an hour, as worked out", (trucks, printed) => {
    const { load: fill, road, tip } = TRUCK_LOOP;
    const { measures } = rehearse(loopDay({ trucks, fill, road, tip, load: 10, loads: 31, places: 1 })).findings;
    expect(measures.loads!.mean).toBe(31);
    expectPrinted(measures.loadsPerHour!.mean, printed);
    expect(Math.abs(measures.loadsPerHour!.mean / 60 / Math.min(trucks / (fill + road + tip), 1 / fill) - 1)).toBeLessThan(1e-9);
  });
});
