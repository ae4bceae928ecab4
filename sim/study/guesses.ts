/**
 * What a planner guesses: each input that is rarely measured, how far such guesses are off (all ranges are assumptions of this project), and
 * how it could be measured before harvest. A range is of factors on what the scenario says, or of points added where it says so.
 */
import type { Scenario, Storage } from "../scenario/types.ts";

export interface Guess {
  readonly id: string;
  /** in words: "Load of a truck" */ readonly what: string;
  /** factors on what the scenario says, or shares added to it */ readonly as: "factor" | "points";
  readonly low: number;
  readonly high: number;
  /** how to know it before harvest */ readonly measure: string;
  readonly apply: (scenario: Scenario, by: number) => Scenario;
}

const perStorage = (scenario: Scenario, change: (storage: Storage) => Partial<Storage>): Scenario => ({ ...scenario, storages: scenario.storages.map((storage) => ({ ...storage, ...change(storage) })) });
const within = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** All guesses there are. */
const ALL: readonly Guess[] = [
  {
    id: "yield", what: "Yield", as: "factor", low: 0.85, high: 1.15, measure: "Cut and weigh a measured strip in each field.",
    apply: (s, by) => ({ ...s, fields: s.fields.map((field) => ({ ...field, yield: field.yield * by })) }),
  },
  {
    id: "dry-matter", what: "Dry matter", as: "points", low: -0.02, high: 0.02, measure: "Chop and dry a sample from each field, the day before.",
    apply: (s, by) => ({
      ...s, crop: { ...s.crop, dryMatter: within(s.crop.dryMatter + by, 0.1, 0.9) }, fields: s.fields.map((field) => ({ ...field, dryMatter: within(field.dryMatter + by, 0.1, 0.9) })),
    }),
  },
  {
    id: "distance", what: "Length of the road", as: "factor", low: 0.95, high: 1.1, measure: "Drive from each field to the clamp and read the meter.",
    apply: (s, by) => ({ ...s, fields: s.fields.map((field) => ({ ...field, distance: Math.max(s.lane?.length ?? 0, field.distance * by) })) }),
  },
  {
    id: "chopper-speed", what: "Speed of the chopper in the row", as: "factor", low: 0.9, high: 1.1, measure: "Time the chopper over a measured row in such a crop.",
    apply: (s, by) => ({ ...s, choppers: s.choppers.map((chopper) => ({ ...chopper, speed: chopper.speed * by })) }),
  },
  {
    id: "throughput", what: "The most the chopper takes", as: "factor", low: 0.85, high: 1.15, measure: "Weigh a load and time its filling in the heaviest crop.",
    apply: (s, by) => ({ ...s, choppers: s.choppers.map((chopper) => ({ ...chopper, throughput: chopper.throughput * by })) }),
  },
  {
    id: "turns", what: "Turns at the row end, and changing trucks", as: "factor", low: 0.7, high: 1.5, measure: "Time ten turns and ten changes of truck.",
    apply: (s, by) => ({ ...s, choppers: s.choppers.map((chopper) => ({ ...chopper, turnTime: chopper.turnTime * by, changeover: chopper.changeover * by })) }),
  },
  {
    id: "load", what: "Load of a truck", as: "factor", low: 0.9, high: 1.1, measure: "Weigh three full loads of each kind of truck.",
    apply: (s, by) => ({ ...s, trucks: s.trucks.map((kind) => ({ ...kind, load: kind.load * by })) }),
  },
  {
    id: "road-speed", what: "Speed on the road", as: "factor", low: 0.85, high: 1.15, measure: "Drive the road loaded and empty with a watch, at the hour of harvest.",
    apply: (s, by) => ({ ...s, trucks: s.trucks.map((kind) => ({ ...kind, loadedSpeed: kind.loadedSpeed * by, emptySpeed: kind.emptySpeed * by })) }),
  },
  {
    id: "weighing", what: "Time on the scale", as: "factor", low: 0.7, high: 1.5, measure: "Time ten weighings.",
    apply: (s, by) => (s.weighing ? { ...s, weighing: { ...s.weighing, time: s.weighing.time * by } } : s),
  },
  {
    id: "tip", what: "Time to tip", as: "factor", low: 0.7, high: 1.3, measure: "Time ten tips, backing up included.",
    apply: (s, by) => ({ ...s, trucks: s.trucks.map((kind) => ({ ...kind, tip: kind.tip * by })) }),
  },
  {
    id: "spreading", what: "How fast the blades spread", as: "factor", low: 0.8, high: 1.2, measure: "Time how long a weighed load takes to push up at the set layer.",
    apply: (s, by) => perStorage(s, ({ tractors }) => ({ tractors: tractors.map((tractor) => ({ ...tractor, spreads: tractor.spreads === null ? null : tractor.spreads * by })) })),
  },
  {
    id: "tractor-mass", what: "Mass of the packing tractors", as: "factor", low: 0.95, high: 1.05, measure: "Put each tractor on a scale, ballast and all.",
    apply: (s, by) => perStorage(s, ({ tractors }) => ({ tractors: tractors.map((tractor) => ({ ...tractor, mass: tractor.mass * by })) })),
  },
  {
    id: "rolling", what: "Share of the time that tractors really roll", as: "points", low: -0.15, high: 0.1, measure: "Watch each tractor for half an hour and count the minutes it rolls.",
    apply: (s, by) => perStorage(s, ({ tractors }) => ({ tractors: tractors.map((tractor) => ({ ...tractor, rolling: within(tractor.rolling + by, 0.05, 1) })) })),
  },
  {
    id: "layer", what: "Thickness of the layer", as: "factor", low: 0.8, high: 1.4, measure: "Push a marked stick into the fresh layer at ten places.",
    apply: (s, by) => ({ ...s, packing: { ...s.packing, layer: within(s.packing.layer * by, 0.02, 0.4) } }),
  },
  {
    id: "machine-rates", what: "What the machines cost by the hour", as: "factor", low: 0.9, high: 1.15, measure: "Ask for this season's rates.",
    apply: (s, by) => ({
      ...perStorage(s, ({ tractors }) => ({ tractors: tractors.map((tractor) => ({ ...tractor, costPerHour: tractor.costPerHour * by })) })),
      choppers: s.choppers.map((chopper) => ({ ...chopper, costPerHour: chopper.costPerHour * by, price: chopper.price * by })), trucks: s.trucks.map((kind) => ({ ...kind, costPerHour: kind.costPerHour * by })),
    }),
  },
  {
    id: "labour", what: "What drivers cost by the hour", as: "factor", low: 0.9, high: 1.15, measure: "Ask for this season's wages.",
    apply: (s, by) => ({ ...s, money: { ...s.money, labourPerHour: s.money.labourPerHour * by } }),
  },
  {
    id: "fuel-price", what: "Price of fuel", as: "factor", low: 0.8, high: 1.3, measure: "Ask the dealer, and fix it if you can.",
    apply: (s, by) => ({ ...s, money: { ...s.money, fuelPerLitre: s.money.fuelPerLitre * by } }),
  },
];

/** A planner's own range for a guess. */
export type Ranges = Readonly<Record<string, readonly [number, number]>>;

/**
 * The guesses that matter to a scenario at all: those whose ends differ there, with a planner's own ranges where given.
 * @throws RangeError in the user's words for a range that is none, or of something unknown
 */
export function guessesOf(scenario: Scenario, ranges: Ranges = {}): Guess[] {
  for (const id of Object.keys(ranges)) if (!ALL.some((guess) => guess.id === id)) throw new RangeError(`There is no guess "${id}"; known are ${ALL.map((guess) => guess.id).join(", ")}.`);
  const guesses = ALL.map((guess): Guess => {
    const [low, high] = ranges[guess.id] ?? [guess.low, guess.high];
    const least = guess.as === "factor" ? 0 : -1;
    if (!(low > least && low < high && Number.isFinite(high))) throw new RangeError(`The range of "${guess.id}" goes from ${low} to ${high}: a lower end above ${least} and a higher end above that would do.`);
    return { ...guess, low, high };
  });
  return guesses.filter(({ apply, low, high }) => JSON.stringify(apply(scenario, low)) !== JSON.stringify(apply(scenario, high)));
}
