/** Small days of every kind for properties: a handful of loads each, so that a thousand of them are rehearsed in a minute. */
import fc from "fast-check";
import { BEHIND_RULES, type Scenario } from "../../sim/scenario/types.ts";
import { HOUR, plan, SEVEN, varying } from "./plan.ts";
import { blade, bunker, chopper, field, roller, trucks } from "./plan.ts";

/** A thousand runs in a long check, a sample in the usual one. */
export const RUNS = { numRuns: process.env.CLAMPSIDE_LONG ? 1000 : 80 };

/** ms that a long check may take on a busy machine. */
export const PATIENCE = 600_000;

const whole = (min: number, max: number) => fc.integer({ min, max });
const maybe = <T>(some: fc.Arbitrary<T>) => fc.option(some, { nil: null });

const breakdowns = fc.record({ between: whole(900, 9000), repair: whole(60, 2400) });
const sometimes = fc.option(breakdowns, { nil: null, freq: 4 });

const someField = (storages: number, choppers: number) => fc.record({
  loads: whole(1, 12), yield: whole(2, 6), distance: whole(300, 6000), rowLength: whole(80, 700), dryMatter: fc.constantFrom(0.28, 0.34, 0.4),
  first: whole(0, storages - 1), second: fc.boolean(), chopper: fc.option(whole(0, choppers - 1), { nil: null, freq: 3 }),
  opening: fc.option(fc.record({ time: whole(60, 900), pace: fc.constantFrom(0.4, 0.7) }), { nil: null, freq: 4 }),
});
const someTruck = (choppers: number) => fc.record({
  count: whole(1, 4), load: whole(30, 160).map((n) => n * 100), loadedSpeed: whole(4, 12), emptySpeed: whole(4, 14), tip: whole(30, 600),
  chopper: fc.option(whole(0, choppers - 1), { nil: null, freq: 3 }), lends: fc.boolean(), breakdowns: sometimes,
});
const someTractor = fc.record({ mass: whole(60, 240).map((n) => n * 100), rolling: fc.constantFrom(0.5, 0.8, 1), breakdowns: sometimes });
const someStorage = fc.record({
  apron: whole(5, 80).map((n) => n * 1000), tippingPlaces: whole(1, 3), spreads: whole(20, 120), blade: someTractor, others: fc.array(someTractor, { maxLength: 3 }),
  meanDepth: fc.constantFrom(null, 1.5, 2.6), length: fc.constantFrom(6, 20, 60),
});

const ingredients = fc.tuple(whole(1, 2), whole(1, 2)).chain(([choppers, storages]) => fc.record({
  choppers: fc.array(fc.record({ width: whole(2, 9), speed: whole(1, 3), turnTime: whole(0, 40), changeover: whole(0, 40), breakdowns: sometimes }), { minLength: choppers, maxLength: choppers }),
  fields: fc.array(someField(storages, choppers), { minLength: 1, maxLength: 3 }),
  trucks: fc.array(someTruck(choppers), { minLength: 1, maxLength: 2 }),
  storages: fc.array(someStorage, { minLength: storages, maxLength: storages }),
  weighing: maybe(fc.record({ time: whole(10, 300), lanes: whole(1, 2) })),
  lane: fc.option(fc.record({ length: whole(50, 290), speed: whole(3, 9), meeting: whole(0, 60) }), { nil: null, freq: 3 }),
  rule: fc.constantFrom(...BEHIND_RULES), layer: fc.constantFrom(0.08, 0.15, 0.25), target: whole(150, 250), finish: whole(0, 2700),
  hours: fc.constantFrom(1, 2, 4, 12), breaks: fc.array(fc.record({ at: whole(300, 9000), for: whole(60, 2400) }), { maxLength: 2 }),
  varies: fc.boolean(), seed: whole(0, 1_000_000),
}));
type Ingredients = typeof ingredients extends fc.Arbitrary<infer T> ? T : never;

/** What to leave out of generated days. */
export interface Without { readonly luck?: boolean; readonly breakdowns?: boolean; readonly breaks?: boolean; readonly yieldLuck?: boolean }

/** Any small day. */
export const anyDay = (without: Without = {}): fc.Arbitrary<Scenario> => ingredients.map((given) => dayOf(given, without));

function dayOf(given: Ingredients, without: Without): Scenario {
  const fails = (breakdowns: { between: number; repair: number } | null) => (without.breakdowns ? null : breakdowns);
  const storages = given.storages.map((s, i) => bunker({
    name: `Bunker ${i + 1}`, apron: s.apron, tippingPlaces: s.tippingPlaces, meanDepth: s.meanDepth, length: s.length,
    tractors: [
      blade(s.blade.mass, { spreads: s.spreads, rolling: s.blade.rolling, breakdowns: fails(s.blade.breakdowns) }),
      ...s.others.map((t, k) => roller(t.mass, { name: `Roller ${k + 1}`, rolling: t.rolling, breakdowns: fails(t.breakdowns) })),
    ],
  }));
  // A truck for every chopper: the first kind is pooled, so that nobody waits for ever.
  const kinds = given.trucks.map((t, k) => trucks(t.count, {
    kind: `Kind ${k + 1}`, load: t.load, loadedSpeed: t.loadedSpeed, emptySpeed: t.emptySpeed, tip: t.tip, breakdowns: fails(t.breakdowns),
    chopper: k === 0 ? null : t.chopper, lends: k > 0 && t.chopper !== null && t.lends,
  }));
  return plan({
    fields: given.fields.map((f, i) => field({
      name: `Field ${i + 1}`, area: (f.loads * kinds[0]!.load) / f.yield, yield: f.yield, distance: f.distance, rowLength: f.rowLength, dryMatter: f.dryMatter,
      storages: f.second && storages.length > 1 ? [f.first, 1 - f.first] : [f.first], chopper: f.chopper, opening: f.opening,
    })),
    choppers: given.choppers.map((c, i) => chopper({ name: `Chopper ${i + 1}`, ...c, throughput: 60, breakdowns: fails(c.breakdowns) })),
    trucks: kinds, storages, weighing: given.weighing, lane: given.lane, seed: given.seed,
    packing: { layer: given.layer, whenBehind: given.rule, finish: given.finish }, targets: { dryDensity: given.target },
    shift: { end: SEVEN + given.hours * HOUR, breaks: without.breaks ? [] : apart(given.breaks).map(({ at, for: length }) => ({ at: SEVEN + at, for: length })) },
    variation: given.varies && !without.luck
      ? varying({ cutting: 0.1, load: 0.05, loaded: 0.2, empty: 0.2, weighing: 0.3, tip: 0.4, spread: 0.2, ...(without.yieldLuck ? {} : { yield: 0.1 }) }) : plan().variation,
  });
}

/** Breaks in order that do not overlap, as a checked scenario has them. */
function apart(breaks: readonly { at: number; for: number }[]): { at: number; for: number }[] {
  const sorted = [...breaks].sort((a, b) => a.at - b.at);
  return sorted.filter((pause, i) => i === 0 || pause.at > sorted[i - 1]!.at + sorted[i - 1]!.for);
}
