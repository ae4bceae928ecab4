import { describe, expect, it } from "vitest";
import { hashOf } from "../../sim/scenario/hash.ts";
import { readScenario, sound } from "./days.ts";

/** Exact definitions, so that the metric twin is worked out apart from the units of the project. */
const LB = 0.45359237;
const FT = 0.3048;
const TON = 2000 * LB;
const ACRE = 43_560 * FT ** 2;
const MILE = 5280 * FT;
const GALLON = 231 * (FT / 12) ** 3 * 1000;

/** A whole day in US units; every quantity is `[amount, US unit, metric unit, factor]`. */
const day = (say: (amount: number, us: string, metric: string, factor: number) => string): string => `
name: Home farm
crop: {kind: corn, moisture: 65 %, chopLength: ${say(0.75, "in", "mm", FT / 12 * 1000)}, looseDensity: ${say(21, "lb/ft3", "kg/m3", LB / FT ** 3)}}
fields:
  - {name: North 40, area: ${say(40, "acre", "ha", ACRE / 1e4)}, yield: ${say(18, "ton/acre", "t/ha", TON / 1000 / (ACRE / 1e4))}, distance: ${say(1.5, "mi", "km", MILE / 1000)}, rowLength: ${say(1320, "ft", "m", FT)}}
choppers:
  - {name: Chopper, width: ${say(20, "ft", "m", FT)}, speed: ${say(3.7, "mph", "km/h", MILE / 1000)}, throughput: ${say(175, "ton/h", "t/h", TON / 1000)}, power: ${say(650, "hp", "kW", 550 * LB * 9.80665 * FT / 1000)},
     paid: by-ton, price: ${say(9, "per ton", "per t", 1000 / TON)}, cost: 480 per h}
trucks:
  - {kind: Truck, count: 6, load: ${say(36_000, "lb", "kg", LB)}, volume: ${say(1500, "ft3", "m3", FT ** 3)}, loaded: ${say(20, "mph", "km/h", MILE / 1000)}, empty: ${say(25, "mi/h", "m/s", MILE / 3600)}, tip: 4 min}
lane: {length: ${say(600, "ft", "m", FT)}, speed: ${say(10, "mph", "km/h", MILE / 1000)}}
storage:
  - {name: Pad, form: pile, width: ${say(90, "ft", "m", FT)}, length: ${say(200, "ft", "m", FT)}, height: ${say(10, "ft", "m", FT)}, apron: ${say(60, "ton", "t", TON / 1000)}, unloaderReach: ${say(14, "ft", "m", FT)}, wallRating: ${say(3, "psi", "kPa", LB * 9.80665 / (FT / 12) ** 2 / 1000)}}
packing:
  tractors:
    - {name: Blade, mass: ${say(35_000, "lb", "t", LB / 1000)}, spreads: ${say(240, "ton/h", "t/h", TON / 1000)}, width: ${say(9, "ft", "m", FT)}, blade: ${say(14, "ft", "m", FT)}}
    - {name: Roller, mass: ${say(40_000, "lb", "t", LB / 1000)}}
  layer: ${say(6, "in", "cm", FT / 12 * 100)}
targets: {dryDensity: ${say(15, "lb/ft3", "kg/m3", LB / FT ** 3)}}
herd: {head: 900, intake: ${say(24, "lb/day", "kg/day", LB)}}
fuelPrice: ${say(4, "per gal", "per L", 1 / GALLON)}
feedValue: ${say(160, "per ton", "per t", 1000 / TON)}
`;

describe("a day written in US units", () => {
  const us = sound(readScenario(day((amount, unit) => `${amount} ${unit}`)));
  const metric = sound(readScenario(day((amount, _us, unit, factor) => `${amount * factor} ${unit}`)));

  it("is the same scenario, to the last byte, as its metric twin in full digits", () => {
    expect(JSON.stringify(us)).toBe(JSON.stringify(metric));
    expect(hashOf(us)).toBe(hashOf(metric));
  });

  it("is read by the exact definitions of its units", () => {
    expect(us.fields[0]!.area).toBeCloseTo(40 * ACRE, 5);
    expect(us.targets.dryDensity).toBeCloseTo(15 * LB / FT ** 3, 8);
    expect(us.trucks[0]!.load).toBeCloseTo(Math.min(36_000 * LB, 1500 * FT ** 3 * 21 * LB / FT ** 3), 6);
    expect(us.crop.dryMatter).toBe(0.35);
  });
});
