/** Haylage that dries while it is cut: denser in dry matter, and yet more air. */
import { describe, expect, it } from "vitest";
import { storedIn } from "../../sim/findings/stored.ts";
import { poreSpace } from "../../sim/forage/porespace.ts";
import { days, example, off } from "./example.ts";

const scenario = example("haylage-drying");
const { fields } = scenario;
/** kg and m3 by strip over sixty days. The last lift of each day is left out: the crew rolls it for the whole finish. */
const strips = fields.map(() => ({ dry: 0, volume: 0, begun: 0 }));
const N = 60;
for (const { day } of days(scenario, N)) {
  const { lifts, densities } = storedIn(day, scenario, 0);
  lifts.slice(0, -1).forEach((lift, i) => {
    const strip = strips[day.trips[lift.trip]!.field]!;
    strip.dry += lift.dryMass;
    strip.volume += lift.dryMass / densities[i]!;
  });
  strips.forEach((strip, f) => {
    strip.begun += day.trips.find((trip) => trip.field === f)!.fillFrom / 3600 / N;
  });
}
const density = strips.map(({ dry, volume }) => dry / volume);
const pores = density.map((dry, f) => poreSpace(dry, dry / fields[f]!.dryMatter, fields[f]!.dryMatter));

/** Slope of the straight line of least squares through the values, per strip. */
function trend(values: readonly number[]): number {
  const middle = (values.length - 1) / 2;
  const spread = values.reduce((sum, _, i) => sum + (i - middle) ** 2, 0);
  return values.reduce((sum, value, i) => sum + (i - middle) * value, 0) / spread;
}

describe("haylage on a drying day", () => {
  it("is written strip by strip, each a point drier than the one before and about an hour later, with the same dry matter on every hectare", () => {
    fields.slice(1).forEach((field, i) => {
      expect(field.dryMatter - fields[i]!.dryMatter).toBeCloseTo(0.01, 9);
      expect(strips[i + 1]!.begun - strips[i]!.begun).toBeGreaterThan(0.9);
      expect(strips[i + 1]!.begun - strips[i]!.begun).toBeLessThan(1.1);
    });
    for (const field of fields) expect(off(field.yield * field.dryMatter, 0.4)).toBeLessThan(0.001);
  });

  it("gets denser in dry matter as the day goes on", () => {
    expect(trend(density)).toBeGreaterThan(1.5);
    expect(density.at(-1)! - density[0]!).toBeGreaterThan(10);
    expect(density[0]).toBeGreaterThan(scenario.targets.dryDensity);
  });

  it("and holds more air: the pore space leaves its target behind while the dry density goes further beyond its own", () => {
    expect(trend(pores)).toBeGreaterThan(0.005);
    expect(pores[0]).toBeLessThan(0.41);
    expect(pores.at(-1)).toBeGreaterThan(0.44);
  });
});
