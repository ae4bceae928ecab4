/** The pace of a crew: how fast it spreads, and how long one load takes it at target density. Pure; the findings and the page read these too. */
import { meanDepthOf } from "../forage/geometry/index.ts";
import { heaviestFirst, referenceLayer, steadyCycle } from "../forage/packing.ts";
import type { Scenario, Storage } from "../scenario/types.ts";
import type { Load } from "./load.ts";

/** The loose layer as the relation sees it: as spread, or always the reference layer when the scenario switches the layer term off. */
export const layerSeen = (scenario: Scenario, layer: number): number => (scenario.packing.layerTerm ? layer : referenceLayer.value);

/** kg/s at which these tractors push together at a layer: given at the reference layer, half the thickness, half the pace (assumption of this project). */
export function pushRate(tractors: Storage["tractors"], layer: number, present: (i: number) => boolean = () => true): number {
  const atReference = tractors.reduce((sum, tractor, i) => sum + (tractor.spreads !== null && present(i) ? tractor.spreads : 0), 0);
  return atReference * (layer / referenceLayer.value);
}

/**
 * t*: s that the rule `hold` needs for one load in steady work with these members of the crew, spreading included. Infinity without
 * a blade or without anybody rolling.
 */
export function cycleAtTarget(scenario: Scenario, storage: Storage, load: Load, depth: number, present: (i: number) => boolean = () => true): number {
  const { tractors } = storage;
  const layer = scenario.packing.layer;
  const rate = pushRate(tractors, layer, present);
  if (rate <= 0) return Infinity;
  const masses = tractors.map((tractor) => tractor.mass);
  return steadyCycle({
    liftMass: load.mass, dryMatter: load.dryMass / load.mass, layer: layerSeen(scenario, layer), depth, target: scenario.targets.dryDensity,
    masses, order: heaviestFirst(masses),
    rolling: tractors.map((tractor, i) => (present(i) ? tractor.rolling : 0)),
    pushing: tractors.map((tractor) => tractor.spreads !== null),
    spreadSeconds: load.mass / rate,
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
  const dry = (meant: (first: number) => boolean) => scenario.fields.reduce((sum, field) => sum + (meant(field.storages[0]!) ? field.area * field.yield * field.dryMatter : 0), 0);
  return meanDepthOf(scenario.storages[storage]!, (dry((first) => first === storage) || dry(() => true)) / scenario.targets.dryDensity);
}
