/**
 * What the packing relation leaves open: storages packed alike differ, and by how much. This scatter is a property of the relation; it
 * is never mixed with the luck of one day.
 */
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { errorFunction } from "simple-statistics";
import { explainedShare, RELATION } from "./packing.ts";
import type { Sourced } from "./sourced.ts";
import { LB_PER_FT3 } from "./us.ts";

/** The survey's two kinds of crop. */
export type SurveyCrop = "haycrop" | "corn";

/** Standard deviation of density between the surveyed bunkers, as published. */
export const surveySd: Readonly<Record<SurveyCrop, Sourced>> = {
  haycrop: { value: 3.8, unit: "lb DM/ft3", source: RELATION.source, mark: "published, figure from memory" },
  corn: { value: 2.9, unit: "lb DM/ft3", source: RELATION.source, mark: "published, figure from memory" },
};

const residual = (crop: SurveyCrop): Sourced => ({
  value: surveySd[crop].value * LB_PER_FT3 * Math.sqrt(1 - explainedShare.value),
  unit: "kg DM/m3",
  source: `the survey's standard deviation and the share its packing factor left unexplained, ${RELATION.source}`,
  mark: "assumption of this project",
  note: "The unexplained share was published for both kinds of crop together; it is applied to each here.",
});

/** Standard deviation between storages that the relation predicts alike, kg DM/m3. */
export const residualSd: Readonly<Record<SurveyCrop, Sourced>> = { haycrop: residual("haycrop"), corn: residual("corn") };

/** Any crop name to the survey's two kinds: corn and sorghum stand upright and are chopped whole, the rest count as haycrop (assumption of this project). */
export function surveyCrop(crop: string): SurveyCrop {
  return crop === "corn" || crop === "sorghum" ? "corn" : "haycrop";
}

/** Where the storage's true density lies with the given chance, kg DM/m3, around a predicted one; normal, both tails alike, never below 0. */
export function band(density: number, crop: string, level = 0.8): [number, number] {
  const reach = normalQuantile(0.5 + level / 2, 0, 1) * residualSd[surveyCrop(crop)].value;
  return [Math.max(0, density - reach), density + reach];
}

/** Chance that a storage predicted at `density` really reaches `target`, both kg DM/m3. A plan that predicts the target is a coin toss for it. */
export function chanceOfTarget(density: number, target: number, crop: string): number {
  const sds = (density - target) / residualSd[surveyCrop(crop)].value;
  return 0.5 * (1 + errorFunction(sds / Math.SQRT2));
}

/** Density a plan must predict, kg DM/m3, to reach `target` with the given chance (above 0, below 1). */
export function densityForChance(target: number, chance: number, crop: string): number {
  return target + normalQuantile(chance, 0, 1) * residualSd[surveyCrop(crop)].value;
}
