/** What lies in a storage: lifts by the relation at the depth the forage really came to. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AT_TARGET, storedIn } from "../../sim/findings/stored.ts";
import { capacityOf, meanDepthOf } from "../../sim/forage/geometry/index.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { anyDay, RUNS } from "../harvest/generated.ts";
import { blade, bunker, plan, roller } from "../harvest/plan.ts";
import { densityAfter } from "../harvest/relation.ts";
import { sum } from "../harvest/reading.ts";
import { lift, madeDay, trip } from "./madeday.ts";

const crew = { mass: 16_000, load: 16_000, dryMatter: 0.34, layer: 0.15, depth: 2.6 };
const alone = plan({ storages: [bunker({ tractors: [blade(16_000), roller()] })] });
const withLifts = (...lifts: ReturnType<typeof lift>[]) => madeDay({ lifts, trips: lifts.map(() => trip({ tipFrom: 0 })) });

describe("The density of a lift", () => {
  it("is the published relation with its own rolling, layer, mass and dry matter", () => {
    const day = withLifts(lift({ rolled: [300, 500] }), lift({ rolled: [0, 500], layer: 0.3 }), lift({ rolled: [100, 100], mass: 8000 }), lift({ rolled: [0, 500], dryMass: 16_000 * 0.4 }), lift({ rolled: [0, 0] }));
    const expected = [
      densityAfter(800, crew), densityAfter(500, { ...crew, layer: 0.3 }), densityAfter(200, { ...crew, load: 8000 }), densityAfter(500, { ...crew, dryMatter: 0.4 }), densityAfter(0, crew),
    ];
    storedIn(day, alone, 0).densities.forEach((density, i) => expect(density).toBeCloseTo(expected[i]!, 8));
  });

  it("sees 15 cm, whatever the layer, when the layer term is switched off", () => {
    const off = plan({ storages: alone.storages, packing: { layerTerm: false } });
    expect(storedIn(withLifts(lift({ rolled: [0, 500], layer: 0.3 })), off, 0).densities[0]).toBeCloseTo(densityAfter(500, crew), 8);
  });
});

describe("A storage", () => {
  it("has the volume of its lifts, each at its own density", () => {
    const day = withLifts(lift({ rolled: [0, 100] }), lift({ rolled: [0, 900], mass: 8000 }));
    const { volume, mass, dryMass, densities, massUnder } = storedIn(day, alone, 0);
    expect([mass, dryMass]).toEqual([24_000, expect.closeTo(24_000 * 0.34, 6)]);
    expect(volume).toBeCloseTo((16_000 * 0.34) / densities[0]! + (8000 * 0.34) / densities[1]!, 8);
    expect(massUnder).toBe(16_000);
  });

  it("counts a lift as at target from 99 % of it on", () => {
    const seconds = 1000;
    const density = densityAfter(seconds, crew);
    const under = (target: number) => storedIn(withLifts(lift({ rolled: [0, seconds] })), { ...alone, targets: { ...alone.targets, dryDensity: target } }, 0).massUnder;
    expect(AT_TARGET).toBe(0.99);
    expect([under(density), under(density / 0.9901), under(density / 0.9899)]).toEqual([0, 0, 16_000]);
  });

  it("counts a lift packed to the target for the planned depth as at target, though the storage came out shallower", () => {
    const place = { ...alone.storages[0]!, meanDepth: null };
    const day = { ...withLifts(lift({ rolled: [0, 1000] })), plannedDepth: [2.6] };
    const under = (target: number) => storedIn(day, { ...alone, storages: [place], targets: { ...alone.targets, dryDensity: target } }, 0);
    const planned = densityAfter(1000, crew);
    const { depth, densities, massUnder } = under(planned);
    expect(depth).toBeLessThan(1);
    expect(densities[0]).toBeLessThan(planned * 0.95);
    expect([massUnder, under(planned / 0.9901).massUnder, under(planned / 0.9899).massUnder]).toEqual([0, 0, 16_000]);
  });

  it("is empty without lifts, and knows only its own", () => {
    const two = { ...alone, storages: [alone.storages[0]!, alone.storages[0]!] };
    const day = { ...withLifts(lift({ rolled: [0, 100], storage: 1 })), plannedDepth: [2.6, 2.6] };
    expect(storedIn(day, two, 0)).toMatchObject({ mass: 0, volume: 0, lifts: [] });
    expect(storedIn(day, two, 1).mass).toBe(16_000);
  });

  it("says how much lies above what it holds", () => {
    const small = plan({ storages: [bunker({ tractors: alone.storages[0]!.tractors, width: 4, length: 4, height: 1 })] });
    const { over, volume } = storedIn(withLifts(lift({ rolled: [0, 100] })), small, 0);
    expect(over).toBeCloseTo(volume - capacityOf(small.storages[0]!), 8);
    expect(over).toBeGreaterThan(0);
    expect(storedIn(withLifts(lift({ rolled: [0, 100] })), alone, 0).over).toBe(0);
  });

  it("names a light helper whose rolling the relation gives no credit on any lift", () => {
    const helped = plan({ storages: [bunker({ tractors: [blade(16_000), roller(16_000), roller(5000, { name: "Light" })] })] });
    expect(storedIn(withLifts(lift({ rolled: [500, 500, 500] })), helped, 0).uncredited).toEqual([2]);
    expect(storedIn(withLifts(lift({ rolled: [500, 500, 0] })), helped, 0).uncredited).toEqual([]);
    // Where it rolled alone it counts.
    expect(storedIn(withLifts(lift({ rolled: [500, 500, 500] }), lift({ rolled: [0, 0, 500] })), helped, 0).uncredited).toEqual([]);
  });
});

describe("Depth and density", () => {
  it("settle together: the depth is that of the volume, the volume that of the densities at that depth", () => {
    fc.assert(fc.property(anyDay(), (scenario) => {
      const day = rehearseDay(scenario);
      scenario.storages.forEach((place, s) => {
        const { lifts, densities, volume, depth } = storedIn(day, scenario, s);
        if (lifts.length === 0) return;
        const off = Math.abs(meanDepthOf(place, volume) / depth - 1) + Math.abs(sum(lifts.map((lift, i) => lift.dryMass / densities[i]!)) / volume - 1);
        if (!(off < 1e-9)) throw new Error(`depth ${depth} for ${volume} m3`);
      });
    }), RUNS);
  }, 600_000);
});
