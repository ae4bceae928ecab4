/** The lifts of one storage ready to be drawn: where each lies, how dense it ends, and how dense it is while it is still rolled. */
import { dryDensityOf, heaviestFirst, packingEffort } from "../sim/forage/packing.ts";
import { storedIn, type Stored } from "../sim/findings/stored.ts";
import type { Day } from "../sim/harvest/daylog.ts";
import { layerSeen } from "../sim/harvest/pace.ts";
import type { Scenario } from "../sim/scenario/types.ts";
import { layClamp, type ClampLayout } from "./clamp.ts";

/** Density classes, upper bounds of all but the last, kg DM/m3: steps of two pounds a cubic foot, so that they read as well in either system. */
export const CLASS_BOUNDS = [160, 192, 224, 256, 288] as const;

/** Class of a density, 0 (loose) to 5 (dense). */
export function classOf(density: number): number {
  const i = CLASS_BOUNDS.findIndex((bound) => density < bound);
  return i < 0 ? CLASS_BOUNDS.length : i;
}

export interface ClampStory {
  readonly storage: number;
  /** densities at the end of the day, kg DM/m3, and what is under target, by lift */ readonly stored: Stored;
  readonly layout: ClampLayout;
}

export function clampStory(day: Day, scenario: Scenario, storage: number): ClampStory {
  const stored = storedIn(day, scenario, storage);
  const volumes = stored.lifts.map((lift, i) => lift.dryMass / stored.densities[i]!);
  return { storage, stored, layout: layClamp(scenario.storages[storage]!, volumes) };
}

/** kg DM/m3 of a lift of the story when this share of its rolling is done. */
export function densityAfter({ stored, storage }: ClampStory, scenario: Scenario, lift: number, share: number): number {
  if (share >= 1) return stored.densities[lift]!;
  const masses = scenario.storages[storage]!.tractors.map((tractor) => tractor.mass);
  const { rolled, mass, dryMass, layer } = stored.lifts[lift]!;
  const effort = packingEffort(masses, rolled.map((seconds) => seconds * share), heaviestFirst(masses));
  return dryDensityOf(effort, mass, dryMass / mass, layerSeen(scenario, layer), stored.depth);
}
