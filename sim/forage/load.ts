/** How much crop a truck takes: by mass or by volume, whichever comes first. */
import type { Sourced } from "./sourced.ts";

const SOURCE =
  "Estimation of yield of silage maize dry matter from volume harvested or by sampling harvested trailer loads, abstract; 423 loads in 1979, 1980 and 1986";

/** Loose density of chopped maize in trailers. Neither dry matter content nor chop length nor height in the trailer changed it there. */
export const looseDryDensity: Sourced = { value: 112, unit: "kg DM/m3", source: SOURCE, mark: "published", range: [112 - 22.5, 112 + 22.5] };

/** Standard deviation of a random load's loose density; here to check the variation from load to load against. */
export const looseDrySd: Sourced = { value: 11.2, unit: "kg DM/m3", source: SOURCE, mark: "published" };

/** Coefficient of variation from load to load within one trailer. */
export const loadToLoad: Sourced = {
  value: 0.037, unit: "1", source: SOURCE, mark: "published", note: "14 % of the whole variance lay between loads within a trailer",
};

/** Loose fresh density, kg/m3, of chopped crop at this dry matter share, by the mean above. */
export function looseFreshDensity(dryMatter: number): number {
  return looseDryDensity.value / dryMatter;
}

/** The load, kg fresh, a truck can take and what limits it, from its mass limit (kg), its volume (m3, null when only mass limits) and the loose fresh density (kg/m3). */
export function loadOf(massLimit: number, volume: number | null, looseDensity: number): { mass: number; limitedBy: "mass" | "volume" } {
  const byVolume = volume === null ? Infinity : volume * looseDensity;
  return byVolume < massLimit ? { mass: byVolume, limitedBy: "volume" } : { mass: massLimit, limitedBy: "mass" };
}
