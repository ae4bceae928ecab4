/**
 * The hand calculation: what each station could pass if nobody ever waited. Over a long day of fields alike no station passes more, but for packing and spreading where a crew
 * buries: it packs less than the target asks for, and lays thicker than the set layer.
 */
import { areaRate, materialRate } from "../forage/capacity.ts";
import { behindOf } from "../scenario/behind.ts";
import type { Scenario } from "../scenario/types.ts";
import { cycleAtTarget, plannedDepth, pushRate, usualLoad } from "../harvest/pace.ts";
import { formatNumber } from "../scenario/units.ts";
import type { HandCheck, Station } from "./types.ts";

/** kg/s by station; the crop is taken as one field with the mean of what each kilogram costs. */
export type Bounds = Readonly<Record<Exclude<Station, "storage">, number>>;

/**
 * Upper bounds min(N / T, 1 / s): N servers or trucks, T a truck's round without waiting, s a load's time at the station.
 * @param atOnce all storages work at the same time; false: one after another, as a single chopper fills them
 */
export function handBounds(scenario: Scenario, atOnce = true): Bounds {
  const { choppers, trucks, fields, weighing, lane, storages } = scenario;
  const crop = fields.reduce((sum, field) => sum + field.area * field.yield, 0);
  const perField = (of: (field: (typeof fields)[number]) => number) => fields.reduce((sum, field) => sum + (of(field) * field.area * field.yield) / crop, 0);
  const count = trucks.reduce((n, kind) => n + kind.count, 0);
  const meanLoad = trucks.reduce((sum, kind) => sum + kind.count * kind.load, 0) / count;

  // s a chopper takes for one kg: cutting, its share of the turns, the changeover spread over a load.
  const secondsPerKg = (chopper: (typeof choppers)[number], load: number) => perField((field) =>
    1 / Math.min(materialRate(areaRate(chopper.width, chopper.speed, 1), field.yield), chopper.throughput)
    + chopper.turnTime / (chopper.width * field.rowLength * field.yield) + chopper.changeover / load);
  const cutting = choppers.reduce((rate, chopper) => rate + 1 / secondsPerKg(chopper, meanLoad), 0);

  const hauling = trucks.reduce((rate, kind) => {
    const laneLength = lane?.length ?? 0;
    const road = perField((field) => Math.max(0, field.distance - laneLength) * (1 / kind.loadedSpeed + 1 / kind.emptySpeed));
    const fill = kind.load * (choppers.reduce((sum, chopper) => sum + secondsPerKg(chopper, kind.load), 0) / choppers.length);
    const round = fill + road + (lane ? (2 * lane.length) / lane.speed : 0) + (weighing?.time ?? 0) + kind.tip;
    return rate + (kind.count * kind.load) / round;
  }, 0);

  // s of a tipping place for one kg.
  const meanTip = trucks.reduce((sum, kind) => sum + kind.count * kind.tip, 0) / (count * meanLoad);
  const used = storages.map((_, s) => s).filter((s) => fields.some((field) => field.storages[0] === s));
  const inTurn = (rate: (s: number) => number) => (used.length === 1 ? rate(used[0]!) : 1 / used.reduce((seconds, s) => seconds + shareOfCrop(scenario, s) / rate(s), 0));
  const atStorages = (rate: (s: number) => number) => (atOnce ? used.reduce((sum, s) => sum + rate(s), 0) : inTurn(rate));
  return {
    cutting, hauling,
    weighing: weighing ? (weighing.lanes * meanLoad) / weighing.time : Infinity,
    tipping: meanTip > 0 ? atStorages((s) => storages[s]!.tippingPlaces / meanTip) : Infinity,
    spreading: atStorages((s) => pushRate(storages[s]!.tractors, scenario.packing.layer)),
    packing: atStorages((s) => packingRateAtTarget(scenario, s)),
  };
}

/** kg/s that the full crew of a storage packs at target density in steady work: m / t*. */
export function packingRateAtTarget(scenario: Scenario, storage: number): number {
  const load = usualLoad(scenario, storage);
  return load.mass / cycleAtTarget(scenario, scenario.storages[storage]!, load, plannedDepth(scenario, storage));
}

/** Share of the crop whose first choice a storage is. */
function shareOfCrop({ fields }: Scenario, storage: number): number {
  const crop = (keep: (first: number) => boolean) => fields.reduce((sum, field) => sum + (keep(field.storages[0]!) ? field.area * field.yield : 0), 0);
  return crop((first) => first === storage) / crop(() => true);
}

/**
 * kg/s that come to a storage while it is filled, of `rate` that field and road bring in all: one chopper fills storages one after another and brings all of it to each;
 * several are taken to bring each its share of the crop at the same time (assumption of this project).
 */
export function broughtTo(scenario: Scenario, storage: number, rate: number): number {
  const share = shareOfCrop(scenario, storage);
  return share > 0 && scenario.choppers.length === 1 ? rate : rate * share;
}

/** kg/s that field and road may bring so that no crew gets more than it packs at target, and the storage whose crew is behind first if they bring more. */
export function paceKept(scenario: Scenario): { readonly pace: number; readonly weakest: number } {
  return scenario.storages.reduce((least, _, s) => {
    const brought = broughtTo(scenario, s, 1);
    const pace = brought > 0 ? packingRateAtTarget(scenario, s) / brought : Infinity;
    return pace < least.pace ? { pace, weakest: s } : least;
  }, { pace: Infinity, weakest: 0 });
}

/** kg/s that field and road would bring to the clamps if the clamps never kept them waiting. */
export function offeredRate(bounds: Bounds): number {
  return Math.min(bounds.cutting, bounds.hauling);
}

/** The bounds beside what was simulated, t/h, with the gap in words. */
export function handCheck(scenario: Scenario, bounds: Bounds, simulated: number): HandCheck[] {
  const tight = Math.min(...Object.values(bounds));
  const buries = behindOf(scenario).holds !== "always";
  return (Object.entries(bounds) as [keyof Bounds, number][]).filter(([, bound]) => Number.isFinite(bound)).map(([station, bound]) => {
    const ratio = simulated / (bound * 3.6);
    return { station, boundTPerH: bound * 3.6, simulatedTPerH: simulated, gapInWords: gapInWords(station, ratio, bound === tight, buries) };
  });
}

/** Gap, %, up to which a station counts as working close to its bound (assumption of this project). */
const CLOSE = 15;

function gapInWords(station: Station, ratio: number, tightest: boolean, buries: boolean): string {
  const percent = Math.round((1 - ratio) * 100);
  if (station === "packing" && ratio > 1.01) {
    return buries ? "more arrives than is packed at target; the crew buries it loose" : "the apron takes in more at first than is packed at target";
  }
  if (station === "spreading" && ratio > 1.01 && buries) return "more is spread than the set layer allows; a hurried crew lays it thicker";
  if (ratio > 1.01) return "above the bound for a while: the day is short, or the fields differ";
  if (ratio <= 0) return "nothing passed";
  if (percent <= 1) return "works at its bound";
  if (tightest || percent <= CLOSE) return `${percent} % under its bound: bunching, breaks, first and last loads`;
  return `room for ${formatNumber(1 / ratio, 1)} times as much`;
}
