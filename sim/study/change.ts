/**
 * Changes to a checked scenario, each a pure function that leaves the old one alone. What comes out is as sound as what went in: a change
 * that would not be (no truck for a chopper, no blade at a storage) throws a RangeError in the user's words.
 */
import { LIMITS } from "../scenario/limits.ts";
import type { BehindRule, Scenario, Storage, Tractor } from "../scenario/types.ts";

const replaced = <T>(items: readonly T[], index: number, item: T): T[] => items.map((old, i) => (i === index ? item : old));

/** The scenario with one storage changed. */
export function withStorage(scenario: Scenario, storage: number, change: Partial<Storage>): Scenario {
  return { ...scenario, storages: replaced(scenario.storages, storage, { ...scenario.storages[storage]!, ...change }) };
}

/** The kind of truck of which there are most; of equals the first. */
export function usualKind({ trucks }: Scenario): number {
  return trucks.reduce((best, kind, i) => (kind.count > trucks[best]!.count ? i : best), 0);
}

/** So many trucks of a kind; with 0 the kind stays at home. */
export function withTrucks(scenario: Scenario, count: number, kind: number = usualKind(scenario)): Scenario {
  if (!Number.isInteger(count) || count < 0 || count > LIMITS.trucks) throw new RangeError(`Trucks are a whole number from 0 to ${LIMITS.trucks}, not ${count}.`);
  const trucks = replaced(scenario.trucks, kind, { ...scenario.trucks[kind]!, count }).filter((each) => each.count > 0);
  scenario.choppers.forEach(({ name }, chopper) => {
    if (!trucks.some((each) => each.chopper === null || each.chopper === chopper || each.lends)) throw new RangeError(`${name} would be left without a truck.`);
  });
  return { ...scenario, trucks };
}

/** One tractor more at a storage; a name that is taken gets a number. */
export function withTractor(scenario: Scenario, storage: number, tractor: Tractor): Scenario {
  const taken = new Set(scenario.storages.flatMap((each) => each.tractors.map(({ name }) => name)));
  let name = tractor.name;
  for (let n = 2; taken.has(name); n++) name = `${tractor.name} ${n}`;
  return withStorage(scenario, storage, { tractors: [...scenario.storages[storage]!.tractors, { ...tractor, name }] });
}

/** One tractor sent home from a storage. */
export function withoutTractor(scenario: Scenario, storage: number, tractor: number): Scenario {
  const place = scenario.storages[storage]!;
  return withCrew(scenario, storage, place.tractors.filter((_, i) => i !== tractor));
}

/** Another crew at a storage. */
export function withCrew(scenario: Scenario, storage: number, tractors: readonly Tractor[]): Scenario {
  if (!tractors.some(({ spreads }) => spreads !== null)) throw new RangeError(`${scenario.storages[storage]!.name} would be left without a blade: nothing could be laid.`);
  return withStorage(scenario, storage, { tractors });
}

/** What a tractor is called that nobody has yet. */
export const HIRED = "Hired tractor";

/** A tractor like the mean of a crew, without a blade. */
export function meanTractor({ tractors }: Storage, name: string): Tractor {
  const mean = (of: (tractor: Tractor) => number) => tractors.reduce((sum, tractor) => sum + of(tractor), 0) / tractors.length;
  return {
    name, mass: mean(({ mass }) => mass), spreads: null, blade: null, hireable: false, rolling: mean(({ rolling }) => rolling), maxMass: null, width: mean(({ width }) => width),
    power: tractors.every(({ power }) => power !== null) ? mean(({ power }) => power!) : null, costPerHour: mean(({ costPerHour }) => costPerHour), breakdowns: null,
  };
}

/** So many tractors beside the blades of a storage: the last of them stay at home, further ones are like the crew's mean. */
export function withPackers(scenario: Scenario, storage: number, count: number): Scenario {
  if (!Number.isInteger(count) || count < 0 || count > LIMITS.tractors) throw new RangeError(`Packing tractors are a whole number from 0 to ${LIMITS.tractors}, not ${count}.`);
  const crew = scenario.storages[storage]!;
  let packers = 0;
  const kept = withCrew(scenario, storage, crew.tractors.filter(({ spreads }) => spreads !== null || packers++ < count));
  return Array.from({ length: Math.max(0, count - packers) }).reduce((plan: Scenario) => withTractor(plan, storage, meanTractor(crew, HIRED)), kept);
}

/** Every tractor of a storage with ballast up to its maker's limit; one without a limit stays as it is. */
export function withBallast(scenario: Scenario, storage: number): Scenario {
  return withStorage(scenario, storage, { tractors: scenario.storages[storage]!.tractors.map((tractor) => ({ ...tractor, mass: Math.max(tractor.mass, tractor.maxMass ?? 0) })) });
}

/** Every tractor of a storage rolling this share of its time on the clamp, or as it does where that is more. */
export function withRolling(scenario: Scenario, storage: number, rolling: number): Scenario {
  return withStorage(scenario, storage, { tractors: scenario.storages[storage]!.tractors.map((tractor) => ({ ...tractor, rolling: Math.max(tractor.rolling, rolling) })) });
}

/** Blades that spread this many times as fast. */
export function withSpreading(scenario: Scenario, storage: number, times: number): Scenario {
  return withStorage(scenario, storage, {
    tractors: scenario.storages[storage]!.tractors.map((tractor) => (tractor.spreads === null ? tractor : { ...tractor, spreads: tractor.spreads * times })),
  });
}

/** Another layer, m. */
export function withLayer(scenario: Scenario, layer: number): Scenario {
  return { ...scenario, packing: { ...scenario.packing, layer } };
}

/** The layer as the relation sees it: as spread (true), or always the reference layer (false). */
export function withLayerTerm(scenario: Scenario, layerTerm: boolean): Scenario {
  return { ...scenario, packing: { ...scenario.packing, layerTerm } };
}

/** Another rule when packing falls behind. */
export function withRule(scenario: Scenario, whenBehind: BehindRule): Scenario {
  return { ...scenario, packing: { ...scenario.packing, whenBehind } };
}

/** Every chopper at this share of its pace: its speed and the most it chops. */
export function withPace(scenario: Scenario, share: number): Scenario {
  return { ...scenario, choppers: scenario.choppers.map((chopper) => ({ ...chopper, speed: chopper.speed * share, throughput: chopper.throughput * share })) };
}

/** No breaks: reliefs take over. In this model a break is everybody's, field and clamp alike. */
export function withoutBreaks(scenario: Scenario): Scenario {
  return { ...scenario, shift: { ...scenario.shift, breaks: [] } };
}

/** A shift that starts earlier by so many s, at midnight at the earliest; it ends as before. */
export function startingEarlier(scenario: Scenario, by: number): Scenario {
  return { ...scenario, shift: { ...scenario.shift, start: Math.max(0, scenario.shift.start - by) } };
}

/** A shift that ends later by so many s, at midnight at the latest. */
export function endingLater(scenario: Scenario, by: number): Scenario {
  return { ...scenario, shift: { ...scenario.shift, end: Math.min(86_400, scenario.shift.end + by) } };
}

/** So many trucks tipping at once. */
export function withTippingPlaces(scenario: Scenario, storage: number, tippingPlaces: number): Scenario {
  return withStorage(scenario, storage, { tippingPlaces });
}

/** An apron that holds so much, kg. */
export function withApron(scenario: Scenario, storage: number, apron: number): Scenario {
  return withStorage(scenario, storage, { apron });
}

/** A storage so many times as long. */
export function withLength(scenario: Scenario, storage: number, times: number): Scenario {
  return withStorage(scenario, storage, { length: scenario.storages[storage]!.length * times });
}

/** So many trucks weighed at once. */
export function withWeighingLanes(scenario: Scenario, lanes: number): Scenario {
  return scenario.weighing ? { ...scenario, weighing: { ...scenario.weighing, lanes } } : scenario;
}

/**
 * A second place like the first storage, opened with a crew of its own like the first's. Fields that led to the first alone lead in turns
 * to either, by mass, and to the other when that is full.
 */
export function withSecondClamp(scenario: Scenario): Scenario {
  const [first] = scenario.storages as readonly [Storage, ...Storage[]];
  const second = scenario.storages.length;
  const storages = [...scenario.storages, { ...first, name: `${first.name}, second place`, tractors: first.tractors.map((tractor) => ({ ...tractor, name: `${tractor.name}, second place` })) }];
  let led = [0, 0];
  const fields = scenario.fields.map((field) => {
    if (field.storages[0] !== 0) return field;
    const mass = field.area * field.yield;
    const toSecond = led[1]! < led[0]!;
    led = toSecond ? [led[0]!, led[1]! + mass] : [led[0]! + mass, led[1]!];
    return { ...field, storages: toSecond ? [second, ...field.storages] : [...field.storages, second] };
  });
  return { ...scenario, storages, fields };
}
