/** The pace of a crew: how fast it spreads, and how long one load takes it at target density. Pure; the findings and the page read these too. */
import { capacityOf, firstWedgeShare, grownWedge, meanDepthOf, roomFor, shareThatCounts } from "../forage/geometry/index.ts";
import { heaviestFirst, referenceLayer, steadyCycle } from "../forage/packing.ts";
import type { Scenario, Storage } from "../scenario/types.ts";
import type { Load } from "./load.ts";

/** The loose layer as the relation sees it: as spread, or always the reference layer when the scenario switches the layer term off. */
export const layerSeen = (scenario: Scenario, layer: number): number => (scenario.packing.layerTerm ? layer : referenceLayer.value);

/** kg/s at which these tractors push together at a layer. */
export function pushRate(tractors: Storage["tractors"], layer: number, present: (i: number) => boolean = () => true): number {
  return paceAtLayer(paceAtReference(tractors, present), layer);
}

/** kg/s that these tractors push together at the reference layer. */
export function paceAtReference(tractors: Storage["tractors"], present: (i: number) => boolean): number {
  return tractors.reduce((sum, tractor, i) => sum + (tractor.spreads !== null && present(i) ? tractor.spreads : 0), 0);
}

/** The same at another layer: half the thickness, half the pace (assumption of this project). */
export const paceAtLayer = (atReference: number, layer: number): number => atReference * (layer / referenceLayer.value);

/** m3 that already make a wedge (assumption of this project). */
const FIRST_SLIVER = 1;

/** Tractors that find room on a wedge once so many m3 of the planned `whole` lie in the storage; no limit when the scenario switches it off. */
export function roomOn(scenario: Scenario, storage: Storage, volume: number, whole: number): number {
  switch (scenario.packing.wedgeRoom) {
    case "off": return Infinity;
    // Before anything lies, the first load will be spread as wide as the storage.
    case "by-width": return roomFor(storage, Math.max(volume, FIRST_SLIVER), widestOf(storage), 0);
    case "first-wedge-too": return roomFor(storage, volume, widestOf(storage), whole);
  }
}

/** m3 from which `roomOn` says the same however much more comes: the wedge has grown, and is not the first any more. */
export function roomKeepsFrom(scenario: Scenario, storage: Storage, whole: number): number {
  switch (scenario.packing.wedgeRoom) {
    case "off": return 0;
    case "by-width": return grownWedge(storage);
    case "first-wedge-too": return Math.max(grownWedge(storage), firstWedgeShare.value * whole);
  }
}

/** Room on the wedge of a storage that is being filled at its full height. */
const fullRoom = (scenario: Scenario, storage: Storage): number => roomOn(scenario, storage, capacityOf(storage), capacityOf(storage));

const widestOf = ({ tractors }: Storage): number => tractors.reduce((widest, { width }) => Math.max(widest, width), 0);

/**
 * Share of the time that each tractor really rolls. Those for whom there is no room take turns; blades that push are not among them.
 */
export function rollingShares(tractors: Storage["tractors"], room: number, pushing: boolean, present: (i: number) => boolean): number[] {
  const rolls = tractors.map((tractor, i) => present(i) && !(pushing && tractor.spreads !== null));
  const share = shareThatCounts(rolls.filter(Boolean).length, room);
  return tractors.map((tractor, i) => (rolls[i] ? tractor.rolling * share : 0));
}

/**
 * t*: s that the rule `hold` needs for one load in steady work with these members of the crew, spreading included, on a wedge of full
 * height unless another room is given. Infinity without a blade or without anybody rolling.
 */
export function cycleAtTarget(
  scenario: Scenario, storage: Storage, load: Load, depth: number, present?: (i: number) => boolean, room?: number,
): number {
  return cyclesAtTarget(scenario, storage, depth, present, room)(load);
}

/** The same for load after load: what belongs to the crew is worked out once. */
export function cyclesAtTarget(
  scenario: Scenario, storage: Storage, depth: number, present: (i: number) => boolean = () => true, room = fullRoom(scenario, storage),
): (load: Load) => number {
  const { tractors } = storage;
  const { layer } = scenario.packing;
  const rate = pushRate(tractors, layer, present);
  if (rate <= 0) return () => Infinity;
  const masses = tractors.map((tractor) => tractor.mass);
  const order = heaviestFirst(masses);
  const rolling = rollingShares(tractors, room, false, present);
  const rollingBeside = rollingShares(tractors, room, true, present);
  const pushing = tractors.map((tractor) => tractor.spreads !== null);
  const seen = layerSeen(scenario, layer);
  const target = scenario.targets.dryDensity;
  // Written out, not spread: this runs for every load of every day.
  return ({ mass, dryMass }) => steadyCycle({
    liftMass: mass, dryMatter: dryMass / mass, layer: seen, depth, target, masses, order, rolling, rollingBeside, pushing, spreadSeconds: mass / rate,
  });
}

/** The load that a storage usually gets: the mean of the trucks, at the mean dry matter of the fields that may lead to it. */
export function usualLoad(scenario: Scenario, storage: number): Load {
  const trucks = scenario.trucks.reduce((n, kind) => n + kind.count, 0);
  const mass = scenario.trucks.reduce((sum, kind) => sum + kind.count * kind.load, 0) / trucks;
  let fresh = 0;
  let dry = 0;
  for (const field of scenario.fields) {
    if (!field.storages.includes(storage)) continue;
    fresh += field.area * field.yield;
    dry += field.area * field.yield * field.dryMatter;
  }
  return { mass, dryMass: mass * (fresh > 0 ? dry / fresh : scenario.crop.dryMatter) };
}

/**
 * Planned mean depth of a storage, m: from its shape and the crop whose first choice it is, at target density, fixed before the day.
 * A storage that is nobody's first choice is planned for the whole crop.
 */
export function plannedDepth(scenario: Scenario, storage: number): number {
  return meanDepthOf(scenario.storages[storage]!, plannedVolume(scenario, storage));
}

/** m3 that the crop meant for a storage will fill at target density. */
export function plannedVolume(scenario: Scenario, storage: number): number {
  const dry = (meant: (first: number) => boolean) => scenario.fields.reduce((sum, field) => sum + (meant(field.storages[0]!) ? field.area * field.yield * field.dryMatter : 0), 0);
  return (dry((first) => first === storage) || dry(() => true)) / scenario.targets.dryDensity;
}
