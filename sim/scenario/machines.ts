/** Choppers, trucks and tractors: from words to SI. */
import { loadOf } from "../forage/load.ts";
import { LIMITS, RANGES } from "./limits.ts";
import { isOn } from "./desk.ts";
import type { Desk } from "./desk.ts";
import { amountOf } from "./pieces.ts";
import type { Breakdowns, Chopper, PaidBy, Tractor, TruckKind } from "./types.ts";
import { settled, unitsOf } from "./units.ts";
import { found, listed } from "./words.ts";
import type { Path } from "./words.ts";
import type { WrittenBreakdowns, WrittenChopper, WrittenScenario, WrittenTractor, WrittenTruck } from "./written.ts";

/** Breakdowns of a machine that says nothing of its own, by kind. */
export interface CommonBreakdowns { readonly choppers: Breakdowns | null; readonly trucks: Breakdowns | null; readonly tractors: Breakdowns | null }

function breakdownsOf(written: WrittenBreakdowns | undefined, common: Breakdowns | null, desk: Desk): Breakdowns | null {
  if (written === undefined) return common;
  if (typeof written === "string") return null;
  return { between: desk.si(written.between, "breakdowns.between"), repair: desk.si(written.repair, "breakdowns.repair") };
}

/** The breakdowns at the top of the file. */
export function commonBreakdowns(written: WrittenScenario["breakdowns"], desk: Desk): CommonBreakdowns {
  const none: CommonBreakdowns = { choppers: null, trucks: null, tractors: null };
  if (written === undefined || typeof written === "string") return none;
  return {
    choppers: breakdownsOf(written.choppers, null, desk),
    trucks: breakdownsOf(written.trucks, null, desk),
    tractors: breakdownsOf(written.tractors, null, desk),
  };
}

export function choppersOf(written: readonly WrittenChopper[], common: CommonBreakdowns, desk: Desk): Chopper[] {
  const choppers = written.map((chopper, i): Chopper => {
    const at = ["choppers", i];
    const paid = desk.wordOr(chopper.paid, "choppers[].paid", at) as PaidBy;
    return {
      name: desk.nameOr(chopper.name, "choppers[].name", at),
      width: desk.si(chopper.width, "choppers[].width"),
      speed: desk.si(chopper.speed, "choppers[].speed"),
      throughput: desk.si(chopper.throughput, "choppers[].throughput"),
      turnTime: desk.siOr(chopper.turnTime, "choppers[].turnTime", at),
      changeover: desk.siOr(chopper.changeover, "choppers[].changeover", at),
      move: desk.siOr(chopper.move, "choppers[].move", at),
      costPerHour: desk.siOr(chopper.cost, "choppers[].cost", at),
      paid,
      price: priceOf(chopper.price, paid, [...at, "price"], desk),
      breakdowns: breakdownsOf(chopper.breakdowns, common.choppers, desk),
      power: desk.siOrNull(chopper.power, "choppers[].power"),
    };
  });
  desk.refuseDoubles(choppers.map(({ name }) => name), (i) => ["choppers", i, "name"]);
  return choppers;
}

/** Per tonne or per hectare, as the work is paid; 0 by the hour, where the cost says it all. */
function priceOf(written: string | undefined, paid: PaidBy, path: Path, desk: Desk): number {
  if (paid === "by-hour") {
    if (written !== undefined) desk.problems.add(path, `is ${found(written)}, but the work is paid by-hour: leave it out, or say paid: by-ton or by-area`);
    return 0;
  }
  const { dimension, upTo } = RANGES[`price.${paid}`];
  if (written === undefined) {
    desk.problems.add(path, `is missing: work paid ${paid} needs a price, ${listed(unitsOf(dimension))}`);
    return 0;
  }
  const amount = amountOf(written, dimension);
  if ("value" in amount && amount.value >= 0 && amount.value <= desk.si(upTo, `price.${paid}`)) return amount.value;
  desk.problems.add(path, `is ${found(written)}: ${"wrong" in amount ? amount.wrong : `from 0 up to ${upTo} would do`}`);
  return 0;
}

/** What a truck carries when only its volume is given: no limit of mass. */
const NO_MASS_LIMIT = Infinity;

export function trucksOf(written: readonly WrittenTruck[], looseDensity: number, chopperNames: readonly string[], common: CommonBreakdowns, desk: Desk): TruckKind[] {
  const trucks = written.map((truck, i): TruckKind => {
    const at = ["trucks", i];
    const limit = desk.siOrNull(truck.load, "trucks[].load");
    const volume = desk.siOrNull(truck.volume, "trucks[].volume");
    if (limit === null && volume === null) desk.problems.add([...at, "load"], "is missing: a load such as \"16 t\", a volume such as \"40 m3\", or both would do");
    const tied = truck.chopper === undefined ? -1 : desk.indexOf(truck.chopper, chopperNames, [...at, "chopper"], "chopper");
    return {
      kind: desk.nameOr(truck.kind, "trucks[].kind", at),
      count: truck.count,
      load: settled(loadOf(limit ?? NO_MASS_LIMIT, volume, looseDensity).mass),
      volume,
      loadedSpeed: desk.siOr(truck.loaded, "trucks[].loaded", at),
      emptySpeed: desk.siOr(truck.empty, "trucks[].empty", at),
      tip: desk.siOr(truck.tip, "trucks[].tip", at),
      chopper: tied < 0 ? null : tied,
      // Only a tied truck can lend itself; where it is pooled the silence is no default worth telling.
      lends: tied < 0 ? isOn(truck.lends ?? false) : desk.turnedOr(truck.lends, "trucks[].lends", at),
      costPerHour: desk.siOr(truck.cost, "trucks[].cost", at),
      breakdowns: breakdownsOf(truck.breakdowns, common.trucks, desk),
      power: desk.siOrNull(truck.power, "trucks[].power"),
    };
  });
  desk.refuseDoubles(trucks.map(({ kind }) => kind), (i) => ["trucks", i, "kind"]);
  const all = trucks.reduce((total, { count }) => total + count, 0);
  if (all > LIMITS.trucks) desk.problems.add(["trucks"], `have ${all} trucks in all: up to ${LIMITS.trucks} would do`);
  chopperNames.forEach((name, chopper) => {
    const served = trucks.some((truck) => truck.chopper === null || truck.chopper === chopper || truck.lends);
    if (!served) desk.problems.add(["trucks"], `leave ${found(name)} without a truck: tie one to it, or leave one kind untied`);
  });
  return trucks;
}

/** One tractor; `ordinal` is what its name ends in when it has none. */
export function tractorOf(written: WrittenTractor, at: Path, ordinal: number, common: CommonBreakdowns, desk: Desk): Tractor {
  const mass = desk.si(written.mass, "tractors[].mass");
  const maxMass = desk.siOrNull(written.maxMass, "tractors[].maxMass");
  if (maxMass !== null && mass > maxMass) {
    desk.problems.add([...at, "mass"], `is ${found(written.mass)}, over its own maxMass of ${found(written.maxMass)}: take ballast off, or mend the limit`);
  }
  return {
    name: desk.nameOr(written.name, "tractors[].name", at, ordinal),
    mass,
    spreads: desk.siOrNull(written.spreads, "tractors[].spreads"),
    rolling: desk.siOr(written.rolling, "tractors[].rolling", at),
    blade: desk.siOrNull(written.blade, "tractors[].blade"),
    maxMass,
    width: desk.siOr(written.width, "tractors[].width", at),
    power: desk.siOrNull(written.power, "tractors[].power"),
    hireable: desk.turnedOr(written.hireable, "tractors[].hireable", at),
    costPerHour: desk.siOr(written.cost, "tractors[].cost", at),
    breakdowns: breakdownsOf(written.breakdowns, common.tractors, desk),
  };
}
