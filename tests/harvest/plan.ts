/**
 * Complete scenarios for tests, from the worked example and whatever a test wants otherwise. Written by hand rather than read from a
 * file, so that a test of the day hangs on nothing but the day. Money is set to round figures that a test can reckon with.
 */
import type { Activity, Chopper, Crop, Field, Scenario, Storage, Tractor, TruckKind, Variation } from "../../sim/scenario/types.ts";

const KM_PER_H = 1000 / 3600;
const T_PER_H = 1000 / 3600;

/** One hour, s. */
export const HOUR = 3600;
/** 07:00, the start of the worked shift, s after midnight. */
export const SEVEN = 7 * HOUR;

export const CROP: Crop = { kind: "corn", dryMatter: 0.34, chopLength: 0.017, looseDensity: 340 };

export const NO_VARIATION: Variation = { cutting: null, load: null, loaded: null, empty: null, weighing: null, tip: null, spread: null, yield: null };

/** Lognormal with these coefficients of variation; whatever is left out does not vary. */
export function varying(cv: Partial<Record<Activity, number>>): Variation {
  const shapes = Object.entries(cv).map(([activity, value]) => [activity, { kind: "lognormal", cv: value }]);
  return { ...NO_VARIATION, ...Object.fromEntries(shapes) };
}

export function field(over: Partial<Field> = {}): Field {
  return {
    name: "Long Strip", area: 300_000, yield: 4.5, distance: 2400, rowLength: 420, dryMatter: 0.34,
    storages: [0], chopper: null, owner: null, opening: null, ...over,
  };
}

export function chopper(over: Partial<Chopper> = {}): Chopper {
  return {
    name: "Chopper", width: 6, speed: 6 * KM_PER_H, throughput: 160 * T_PER_H, turnTime: 25, changeover: 20, move: 900,
    costPerHour: 400, paid: "by-hour", price: 0, breakdowns: null, power: null, ...over,
  };
}

export function trucks(count: number, over: Partial<TruckKind> = {}): TruckKind {
  return {
    kind: "Tipper", count, load: 16_000, volume: null, loadedSpeed: 28 * KM_PER_H, emptySpeed: 34 * KM_PER_H, tip: 240,
    chopper: null, lends: false, costPerHour: 80, breakdowns: null, power: null, ...over,
  };
}

/** A tractor that only packs. */
export function roller(mass = 16_000, over: Partial<Tractor> = {}): Tractor {
  return { name: "Roller", mass, spreads: null, rolling: 1, maxMass: null, width: 2.5, power: null, costPerHour: 90, breakdowns: null, ...over };
}

/** A tractor that pushes, 220 t/h at 15 cm, and packs in between. */
export function blade(mass = 14_000, over: Partial<Tractor> = {}): Tractor {
  return roller(mass, { name: "Blade", spreads: 220 * T_PER_H, ...over });
}

export function bunker(over: Partial<Storage> = {}): Storage {
  return {
    name: "North bunker", form: "bunker", width: 18, length: 52, height: 3.2, wedge: 3, sideSlope: 0, topWidth: null, meanDepth: 2.6,
    apron: 60_000, tippingPlaces: 1, tipsOnPile: false, tractors: [blade(), roller()], cover: "plain", unloaderReach: null,
    wallRating: null, capitalCost: 0, life: 20, ...over,
  };
}

/** What a test may want otherwise: any part of the scenario, and the inner parts of packing, targets, shift and money one by one. */
export interface Wishes extends Partial<Omit<Scenario, "packing" | "targets" | "shift" | "money">> {
  readonly packing?: Partial<Scenario["packing"]>;
  readonly targets?: Partial<Scenario["targets"]>;
  readonly shift?: Partial<Scenario["shift"]>;
  readonly money?: Partial<Scenario["money"]>;
}

/** The worked example, with the wishes put in. */
export function plan({ packing, targets, shift, money, ...over }: Wishes = {}): Scenario {
  return {
    name: "Worked day", crop: CROP, fields: [field()], choppers: [chopper()], trucks: [trucks(5)], lane: null,
    weighing: { time: 60, lanes: 1 }, storages: [bunker()],
    packing: { layer: 0.15, layerTerm: true, wedgeRoom: "off", whenBehind: "bury", finish: 2700, ...packing },
    targets: { dryDensity: 240, poreSpace: 0.4, ...targets },
    shift: { start: SEVEN, end: 20 * HOUR, breaks: [], ...shift },
    variation: NO_VARIATION, herd: null,
    money: { currency: "EUR", labourPerHour: 25, fuelPerLitre: 1.4, feedValuePerTonne: 180, ...money },
    covering: { filmPerArea: { plain: 1, barrier: 2 }, people: 4, pace: 0.1 },
    losses: { effluent: true, fermentation: true, density: true, topLayer: true, face: true },
    seed: 1, ...over,
  };
}

/**
 * A day that can be worked by hand: the forage flows at 40 kg/s, a row is 6 t and takes 150 s, a turn 25 s, a changeover 20 s; a truck
 * takes 9 t, drives 200 s loaded and 100 s empty, tips in 120 s; the blade pushes 50 kg/s at the set layer. Two rows unless told otherwise.
 */
export const tinyField = (over: Partial<Field> = {}): Field => field({ area: 3000, yield: 4, distance: 2000, rowLength: 300, ...over });
export const tinyChopper = (over: Partial<Chopper> = {}): Chopper => chopper({ width: 5, speed: 2, throughput: 1000, ...over });
export const tinyTrucks = (count: number, over: Partial<TruckKind> = {}): TruckKind =>
  trucks(count, { load: 9000, loadedSpeed: 10, emptySpeed: 20, tip: 120, ...over });
export const tinyBlade = (over: Partial<Tractor> = {}): Tractor => blade(14_000, { spreads: 50, ...over });
export const tinyBunker = (over: Partial<Storage> = {}): Storage => bunker({ tractors: [tinyBlade(), roller()], ...over });

export function tiny({ packing, ...wishes }: Wishes = {}): Scenario {
  return plan({
    name: "Tiny day", fields: [tinyField()], choppers: [tinyChopper()], trucks: [tinyTrucks(1)], storages: [tinyBunker()], weighing: null,
    packing: { finish: 600, ...packing }, ...wishes,
  });
}
