import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dryDensityOf, effortFor, heaviestFirst, packingEffort, secondsToReach, steadyCycle } from "../../sim/forage/packing.ts";

const machine = fc.record({
  mass: fc.double({ min: 2000, max: 30000, noNaN: true }),
  rate: fc.oneof(fc.constant(0), fc.double({ min: 0.05, max: 1, noNaN: true })),
  have: fc.oneof(fc.constant(0), fc.double({ min: 1, max: 3000, noNaN: true })),
  ahead: fc.oneof(fc.constant(0), fc.double({ min: 1, max: 1000, noNaN: true })),
});
type Machine = typeof machine extends fc.Arbitrary<infer T> ? T : never;

const effortAfter = (crew: readonly Machine[], seconds: number, withAhead: boolean) => {
  const masses = crew.map(({ mass }) => mass);
  return packingEffort(masses, crew.map(({ have, ahead, rate }) => have + (withAhead ? ahead : 0) + seconds * rate), heaviestFirst(masses));
};
const wait = (crew: readonly Machine[], target: number, withAhead: boolean) => {
  const masses = crew.map(({ mass }) => mass);
  return secondsToReach({
    target, masses, order: heaviestFirst(masses), rates: crew.map(({ rate }) => rate), have: crew.map(({ have }) => have),
    ahead: withAhead ? crew.map(({ ahead }) => ahead) : null,
  });
};

/** The least wait by halving: the effort never falls as time goes on, so this is slow and safe. */
function byHalving(crew: readonly Machine[], target: number, withAhead: boolean): number {
  if (effortAfter(crew, 0, withAhead) >= target) return 0;
  let low = 0;
  let high = 1;
  while (effortAfter(crew, high, withAhead) < target) high *= 2;
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (effortAfter(crew, middle, withAhead) < target) low = middle; else high = middle;
  }
  return high;
}

describe("The wait until a lift is dense enough", () => {
  it("is the one that halving finds, for any crew, anything rolled before and anything still to come", () => {
    fc.assert(fc.property(fc.array(machine, { minLength: 1, maxLength: 5 }), fc.double({ min: 1e3, max: 3e6, noNaN: true }), fc.boolean(), (crew, target, withAhead) => {
      fc.pre(crew.some(({ rate }) => rate > 0));
      const closed = wait(crew, target, withAhead);
      const halved = byHalving(crew, target, withAhead);
      const behind = crew.reduce((sum, { have, ahead }) => sum + have + ahead, 0);
      expect(Math.abs(closed - halved)).toBeLessThanOrEqual(1e-9 * (halved + behind));
      expect(effortAfter(crew, closed, withAhead)).toBeGreaterThanOrEqual(target * (1 - 1e-9));
    }), { numRuns: 1000 });
  });
  it("is nothing when the lift is dense enough already, or will be by what still comes", () => {
    const crew = [{ mass: 16000, rate: 1, have: 100, ahead: 300 }];
    expect(wait(crew, 16000 * 10, false)).toBe(0);
    expect(wait(crew, 16000 * 20, true)).toBe(0);
    expect(wait(crew, 16000 * 20, false)).toBeCloseTo(300, 9);
    expect(wait(crew, 0, false)).toBe(0);
  });
  it("never ends when nobody rolls", () => {
    expect(wait([{ mass: 16000, rate: 0, have: 100, ahead: 0 }], 1e6, true)).toBe(Infinity);
  });
  it("does not get longer by a light helper: the heavy one's own root counts", () => {
    const heavy = { mass: 16000, rate: 1, have: 0, ahead: 0 };
    const light = { mass: 5000, rate: 1, have: 0, ahead: 0 };
    expect(wait([light, heavy], 5e5, false)).toBeCloseTo(wait([heavy], 5e5, false), 9);
  });
});

describe("The steady cycle of holding every lift to its target", () => {
  const masses = [14000, 16000];
  const work = {
    liftMass: 16000, dryMatter: 0.34, layer: 0.15, depth: 2.6, target: 240, masses, order: heaviestFirst(masses),
    rolling: [1, 1], pushing: [true, false], spreadSeconds: (16 / 220) * 3600,
  };
  it("is 818.2 s, 70.4 t/h, for a 14 t blade that spreads 220 t/h and a 16 t roller on loads of 16 t", () => {
    const cycle = steadyCycle(work);
    expect(cycle).toBeCloseTo(818.2, 1);
    expect((16 / cycle) * 3600).toBeCloseTo(70.4, 1);
  });
  it("leaves every lift at exactly the target, or above it when spreading takes long enough by itself", () => {
    fc.assert(fc.property(
      fc.array(fc.record({ mass: fc.double({ min: 3000, max: 25000, noNaN: true }), rolling: fc.double({ min: 0.3, max: 1, noNaN: true }), pushing: fc.boolean() }), { minLength: 1, maxLength: 4 }),
      fc.double({ min: 120, max: 320, noNaN: true }), fc.double({ min: 60, max: 900, noNaN: true }), (crew, target, spreadSeconds) => {
        const each = crew.map(({ mass }) => mass);
        const order = heaviestFirst(each);
        const cycle = steadyCycle({ ...work, target, spreadSeconds, masses: each, order, rolling: crew.map((c) => c.rolling), pushing: crew.map((c) => c.pushing) });
        const rolled = crew.map((c) => c.rolling * (c.pushing ? cycle - spreadSeconds : cycle));
        const reached = dryDensityOf(packingEffort(each, rolled, order), work.liftMass, work.dryMatter, work.layer, work.depth);
        expect(cycle).toBeGreaterThanOrEqual(spreadSeconds);
        if (cycle > spreadSeconds) expect(Math.abs(reached / target - 1)).toBeLessThan(1e-9);
        else expect(reached).toBeGreaterThanOrEqual(target * (1 - 1e-9));
      }), { numRuns: 500 });
  });
  it("is the spreading alone when the crop reaches the target unpacked, and endless when nobody rolls", () => {
    expect(effortFor(110, 16000, 0.34, 0.15, 2.6)).toBe(0);
    expect(steadyCycle({ ...work, target: 110 })).toBe(work.spreadSeconds);
    expect(steadyCycle({ ...work, rolling: [0, 0] })).toBe(Infinity);
  });
});
