/** The lifts of one storage ready to be drawn: where each lies, how dense it ends, and how dense it is while it is still rolled. */
import { dryDensityOf, heaviestFirst, packingEffort } from "../sim/forage/packing.ts";
import { loosestPart } from "../sim/forage/geometry/index.ts";
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

/** Width of a bar in the spread of the lifts, kg DM/m3: a quarter of a class. */
const BAR = 8;

/** Lifts of like density together. */
export interface Bin { readonly from: number; readonly to: number; /** fresh kg */ readonly mass: number; /** fresh kg of it in lifts under target */ readonly under: number }

/** The lifts of a storage by density, from the loosest to the densest, empty bars between them included. */
export function binsOf({ stored: { lifts, densities, under } }: ClampStory): Bin[] {
  if (lifts.length === 0) return [];
  const at = densities.map((density) => Math.floor(density / BAR));
  const first = Math.min(...at);
  const bins = Array.from({ length: Math.max(...at) - first + 1 }, (_, i) => ({ from: (first + i) * BAR, to: (first + i + 1) * BAR, mass: 0, under: 0 }));
  lifts.forEach(({ mass }, i) => {
    const bin = bins[at[i]! - first]!;
    bin.mass += mass;
    if (under[i]) bin.under += mass;
  });
  return bins;
}

/** kg DM/m3 of the loosest tenth of the dry matter; NaN where nothing lies. */
export function loosestTenth({ stored: { lifts, densities } }: ClampStory): number {
  return loosestPart(lifts.map(({ dryMass }, i) => ({ dryMass, density: densities[i]! })));
}
