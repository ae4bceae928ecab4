/** The lifts of one storage ready to be drawn: where each lies, how dense it ends, and how dense it is while it is still rolled. */
import { dryDensityOf, heaviestFirst, packingEffort } from "../sim/forage/packing.ts";
import { AT_TARGET, storedIn, type Stored } from "../sim/findings/stored.ts";
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
  /** densities at the end of the day, kg DM/m3, by lift */ readonly stored: Stored;
  readonly layout: ClampLayout;
  /** kg DM/m3 from which a lift counts as at target */ readonly enough: number;
}

export function clampStory(day: Day, scenario: Scenario, storage: number): ClampStory {
  const stored = storedIn(day, scenario, storage);
  const { length, width, wedge, sideSlope } = scenario.storages[storage]!;
  const volumes = stored.lifts.map((lift, i) => lift.dryMass / stored.densities[i]!);
  return { storage, stored, layout: layClamp({ length, width, wedge, back: sideSlope }, volumes), enough: scenario.targets.dryDensity * AT_TARGET };
}

/** kg DM/m3 of a lift of the story when this share of its rolling is done. */
export function densityAfter({ stored, storage }: ClampStory, scenario: Scenario, lift: number, share: number): number {
  if (share >= 1) return stored.densities[lift]!;
  const masses = scenario.storages[storage]!.tractors.map((tractor) => tractor.mass);
  const { rolled, mass, dryMass, layer } = stored.lifts[lift]!;
  const effort = packingEffort(masses, rolled.map((seconds) => seconds * share), heaviestFirst(masses));
  return dryDensityOf(effort, mass, dryMass / mass, layerSeen(scenario, layer), stored.depth);
}
