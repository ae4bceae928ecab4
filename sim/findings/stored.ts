/** What lies in a storage at the end of the day: each lift's density by the relation, at the depth the forage really came to. */
import { capacityOf, meanDepthOf } from "../forage/geometry/index.ts";
import { depthTerm, dryDensityOf, heaviestFirst, packingEffort, uncreditedTractors } from "../forage/packing.ts";
import type { Day, Lift } from "../harvest/daylog.ts";
import { layerSeen } from "../harvest/pace.ts";
import type { Scenario } from "../scenario/types.ts";

/**
 * A lift counts as at target from this share of it on, at the depth the storage came to or at the planned one (assumption of this
 * project): a crew packs for the planned depth and cannot help it when a thin crop, or denser packing, leaves the storage shallower.
 */
export const AT_TARGET = 0.99;

export interface Stored {
  readonly lifts: readonly Lift[];
  /** kg DM/m3, by lift, at the final mean depth */ readonly densities: readonly number[];
  /** by lift: under target at the final and at the planned depth */ readonly under: readonly boolean[];
  /** kg */ readonly mass: number;
  readonly dryMass: number;
  /** m3 */ readonly volume: number;
  /** m */ readonly depth: number;
  /** kg of fresh mass in lifts under target */ readonly massUnder: number;
  /** m3 above what the storage holds; 0 when all fits */ readonly over: number;
  /** tractors that rolled and get no credit from the relation on any lift, by index in the crew */ readonly uncredited: readonly number[];
}

/** Depth and density settle together: denser forage lies shallower, and shallower forage is less dense. */
export function storedIn(day: Day, scenario: Scenario, storage: number): Stored {
  const place = scenario.storages[storage]!;
  const masses = place.tractors.map((tractor) => tractor.mass);
  const order = heaviestFirst(masses);
  const lifts = day.lifts.filter((lift) => lift.storage === storage);

  const atNoDepth = lifts.map((lift) => dryDensityOf(packingEffort(masses, lift.rolled, order), lift.mass, lift.dryMass / lift.mass, layerSeen(scenario, lift.layer), 0));
  const loose = lifts.reduce((sum, lift, i) => sum + lift.dryMass / atNoDepth[i]!, 0);
  const volumeAt = (depth: number) => (loose * depthTerm(0)) / depthTerm(depth);
  let depth = day.plannedDepth[storage]!;
  for (let step = 0; step < 60; step++) {
    const next = meanDepthOf(place, volumeAt(depth));
    if (Math.abs(next - depth) < 1e-12 * next) break;
    depth = next;
  }

  const densities = atNoDepth.map((density) => (density * depthTerm(depth)) / depthTerm(0));
  const enough = scenario.targets.dryDensity * AT_TARGET;
  const deepest = depthTerm(Math.max(depth, day.plannedDepth[storage]!)) / depthTerm(depth);
  const under = densities.map((density) => density * deepest < enough);
  const rolledAny = masses.map((_, i) => lifts.some((lift) => lift.rolled[i]! > 0));
  const credited = new Set<number>();
  for (const lift of lifts) {
    const without = new Set(uncreditedTractors(masses, lift.rolled, order));
    masses.forEach((_, i) => lift.rolled[i]! > 0 && !without.has(i) && credited.add(i));
  }
  const volume = volumeAt(depth);
  return {
    lifts, densities, under, volume, depth,
    mass: lifts.reduce((sum, lift) => sum + lift.mass, 0),
    dryMass: lifts.reduce((sum, lift) => sum + lift.dryMass, 0),
    massUnder: lifts.reduce((sum, lift, i) => sum + (under[i] ? lift.mass : 0), 0),
    over: Math.max(0, volume - capacityOf(place)),
    uncredited: masses.map((_, i) => i).filter((i) => rolledAny[i] && !credited.has(i)),
  };
}
