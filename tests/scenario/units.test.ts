import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DIMENSIONS, displayUnit, formatNumber, formatQuantity, inDisplayUnit, parse, patternOf, settled, toSI, unitsOf } from "../../sim/scenario/units.ts";
import type { DimensionName } from "../../sim/scenario/units.ts";

const dimensions = Object.keys(DIMENSIONS) as DimensionName[];

/** Exact definitions: international pound and foot (not the survey foot); acre of 43,560 square feet; ton of 2,000 lb; gallon of 231 cubic inches. */
const LB = 0.45359237;
const FT = 0.3048;
const IN = 0.0254;
const EXACT: readonly (readonly [string, DimensionName, number])[] = [
  ["1 acre", "area", 43_560 * FT ** 2], ["1 ha", "area", 1e4],
  ["1 in", "thickness", IN], ["1 ft", "length", FT], ["1 mi", "distance", 5280 * FT], ["17 mm", "chop", 0.017],
  ["1 lb", "mass", LB], ["1 ton", "mass", 2000 * LB], ["1 t", "mass", 1000],
  ["18 ton/acre", "yield", 18 * 2000 * LB / (43_560 * FT ** 2)], ["45 t/ha", "yield", 4.5],
  ["36 ton/h", "flow", 36 * 2000 * LB / 3600], ["160 t/h", "flow", 160_000 / 3600],
  ["4 mph", "speed", 4 * 5280 * FT / 3600], ["4 mi/h", "speed", 4 * 5280 * FT / 3600], ["36 km/h", "speed", 10],
  ["25 s", "time", 25], ["4 min", "time", 240], ["1.5 h", "time", 5400], ["25 h", "hours", 90_000],
  ["15 lb/ft3", "density", 15 * LB / FT ** 3], ["240 kg/m3", "density", 240], ["0.34 t/m3", "density", 340],
  ["1 ft3", "volume", FT ** 3], ["1 gal", "fluid", 231 * IN ** 3], ["1 L", "fluid", 1e-3],
  ["1 hp", "power", 550 * LB * 9.80665 * FT / 1000], ["1 psi", "pressure", LB * 9.80665 / IN ** 2 / 1000], ["100 lb/ft2", "pressure", 100 * LB * 9.80665 / FT ** 2 / 1000],
  ["34 %", "share", 0.34], ["24 lb/day", "intake", 24 * LB],
  ["420 per h", "perHour", 420], ["12 per t", "perTonne", 12], ["10 per ton", "perTonne", 10 / (2 * LB)],
  ["90 per ha", "perHectare", 90], ["40 per acre", "perHectare", 40 / (43_560 * FT ** 2) * 1e4], ["1.40 per L", "perLitre", 1.4], ["4 per gal", "perLitre", 4 / (231 * IN ** 3 * 1000)],
];

function value(text: string, dimension: DimensionName): number {
  const parsed = parse(text, dimension);
  if ("wrong" in parsed) throw new Error(`${text}: ${parsed.wrong}`);
  return parsed.value;
}

function wrong(text: string, dimension: DimensionName): string {
  const parsed = parse(text, dimension);
  if ("value" in parsed) throw new Error(`${text} was read as ${parsed.value}`);
  return parsed.wrong;
}

describe("a quantity", () => {
  it.each(EXACT)("%s is read by its exact definition, to twelve digits", (text, dimension, si) => {
    expect(value(text, dimension)).toBe(settled(si));
  });

  it("is read with or without blanks, with superscripts and in powers of ten", () => {
    for (const text of ["240kg/m3", " 240  kg/m3 ", "240 kg/m³", "2.4e2 kg/m3", "+240 kg/m3", "240.0 kg/m3"]) expect(value(text, "density")).toBe(240);
    expect(value("420  per   h", "perHour")).toBe(420);
    expect(value(".5 ha", "area")).toBe(5000);
  });

  it("tells the metric tonne from the US short ton", () => {
    expect(value("1 t", "mass")).toBe(1000);
    expect(value("1 ton", "mass")).toBe(907.18474);
  });

  it("without a unit is refused, and the units that would do are named", () => {
    expect(wrong("14", "area")).toMatch(/unit is missing.*m2, ha or acre/u);
  });

  it("with a unit nobody knows is refused, and the units that would do are named", () => {
    expect(wrong("14 hectare", "area")).toMatch(/hectare is no unit known here.*m2, ha or acre/u);
  });

  it("of another dimension is refused by what it is", () => {
    expect(wrong("14 kg", "area")).toMatch(/kg is the unit of a mass.*m2, ha or acre/u);
    expect(wrong("4 min", "speed")).toMatch(/min is the unit of a time/u);
  });

  it("with a comma in its number is refused with how to write it", () => {
    expect(wrong("35,000 lb", "mass")).toMatch(/point for decimals/u);
    expect(wrong("2,4 km", "distance")).toMatch(/point for decimals/u);
  });

  it("that is no quantity at all is refused", () => {
    for (const text of ["", " ", "ha", "fourteen ha", "0x10 ha", "- 3 ha", "1e999 ha", "NaN ha", "Infinity ha", "1 2 ha", "constructor", "1 constructor", "1 __proto__"]) {
      expect(wrong(text, "area").length).toBeGreaterThan(0);
    }
  });

  it("is told apart by the schema's pattern exactly where the reader tells it apart", () => {
    const text = fc.tuple(
      fc.constantFrom("", " ", "-"), fc.constantFrom("14", "2.4", ".5", "1e3", "1,000", "x", ""), fc.constantFrom("", " ", "  "),
      fc.constantFrom("", "°", ...dimensions.flatMap((dimension) => [...unitsOf(dimension), ...unitsOf(dimension).map((unit) => unit.replace("3", "³"))])), fc.constantFrom("", " ", "x"),
    ).map((parts) => parts.join(""));
    fc.assert(fc.property(text, fc.constantFrom(...dimensions), (words, dimension) => {
      expect(new RegExp(patternOf(dimension), "u").test(words)).toBe("value" in parse(words, dimension));
    }), { numRuns: 3000 });
  });
});

describe("units both ways", () => {
  it("give back what went in, for every unit of every dimension, to the digits that are kept", () => {
    fc.assert(fc.property(
      fc.constantFrom(...dimensions.flatMap((dimension) => unitsOf(dimension).map((unit) => [dimension, unit] as const))),
      fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
      ([dimension, unit], amount) => {
        const si = value(`${amount} ${unit}`, dimension);
        const back = si / toSI(1, unit, dimension);
        // Twelve significant digits: half a unit in the last is at most 5e-12 of the value.
        expect(Math.abs(back - amount)).toBeLessThanOrEqual(5.1e-12 * amount);
      },
    ), { numRuns: 2000 });
  });

  it("give the same figure from either system, to the digits that are kept", () => {
    fc.assert(fc.property(fc.constantFrom(...dimensions), fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (dimension, amount) => {
      const us = displayUnit(dimension, "us");
      const metric = displayUnit(dimension, "metric");
      const inMetric = amount * toSI(1, us, dimension) / toSI(1, metric, dimension);
      const one = value(`${amount} ${us}`, dimension);
      expect(Math.abs(one - value(`${inMetric} ${metric}`, dimension))).toBeLessThanOrEqual(1.01e-11 * one);
    }), { numRuns: 2000 });
  });

  it("refuse a unit of something else when asked by name", () => {
    expect(() => toSI(1, "kg", "area")).toThrow(/m2, ha or acre/u);
    expect(() => toSI(1, "toString", "area")).toThrow(RangeError);
  });
});

describe("a quantity shown", () => {
  it("comes in the reader's unit, with the digits it deserves", () => {
    expect(formatQuantity(240, "density", "metric")).toBe("240 kg/m3");
    expect(formatQuantity(240, "density", "us", 1)).toBe("15.0 lb/ft3");
    expect(formatQuantity(140_000, "area", "metric")).toBe("14.0 ha");
    expect(formatQuantity(140_000, "area", "us")).toBe("34.6 acre");
    expect(formatQuantity(0.15, "thickness", "metric")).toBe("15 cm");
    expect(formatQuantity(0.1524, "thickness", "us")).toBe("6 in");
    expect(formatQuantity(0.34, "share", "us")).toBe("34 %");
    expect(formatQuantity(1728, "volume", "metric")).toBe("1,728 m3");
    expect(formatQuantity(12, "perTonne", "us")).toBe("10.89 per ton");
  });

  it("changes only its unit between systems, never its size", () => {
    fc.assert(fc.property(fc.constantFrom(...dimensions), fc.double({ min: 1e-3, max: 1e9, noNaN: true }), (dimension, si) => {
      for (const system of ["metric", "us"] as const) {
        const back = toSI(inDisplayUnit(si, dimension, system), displayUnit(dimension, system), dimension);
        expect(Math.abs(back - si)).toBeLessThanOrEqual(1e-14 * si);
      }
    }));
  });

  it("sets thousands apart, and shows no minus before a zero", () => {
    expect(formatNumber(1_234_567.891, 2)).toBe("1,234,567.89");
    expect(formatNumber(999, 0)).toBe("999");
    expect(formatNumber(-1234, 0)).toBe("-1,234");
    expect(formatNumber(10 ** 21, 0)).toBe(`1${",000".repeat(7)}`);
    expect(formatNumber(-0.001, 1)).toBe("0.0");
    expect(formatNumber(NaN, 1)).toBe("–");
  });
});
