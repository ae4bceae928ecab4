/** The share of a storage that is filled with gas: the part of density that lets air in. Hafner, Montes & Rotz 2012, Atmospheric Environment 54:134-140. */
import type { Range, Sourced } from "./sourced.ts";

const SOURCE = "Hafner, Montes & Rotz 2012, Atmospheric Environment 54:134-140";

/** Density of the dry matter itself. */
export const solidDensity: Sourced = { value: 1600, unit: "kg/m3", source: SOURCE, mark: "published" };

/** Density of the water in the crop. */
export const waterDensity: Sourced = { value: 1000, unit: "kg/m3", source: SOURCE, mark: "published" };

/** What a storage should reach, each target by itself; see `targetsAgree`. */
export const targets = {
  dryDensity: { value: 240, unit: "kg DM/m3", source: "Undersander 2009: at least 15 lb DM/ft3", mark: "published" },
  wetDensity: { value: 705, unit: "kg/m3", source: "Undersander 2009: at least 44 lb/ft3 as fed", mark: "published" },
  poreSpace: { value: 0.4, unit: "1", source: "Undersander 2009: under 0.40", mark: "published" },
} as const satisfies Record<string, Sourced>;

/** Dry matter share at which the three targets say the same. A drier crop meets the dry density first, a wetter one the pore space. */
export const targetsAgree: Sourced<Range> = {
  value: [0.35, 0.4], unit: "1", source: "arithmetic on the three targets, Undersander 2009", mark: "assumption of this project",
};

/**
 * Pore space, share of the volume, from dry density (kg DM/m3), wet density (kg fresh/m3) and dry matter share. A negative result means
 * that solids and water need more room than there is: a RangeError says so.
 */
export function poreSpace(dry: number, wet: number, dryMatter: number): number {
  const space = 1 - dry / solidDensity.value - ((1 - dryMatter) * wet) / waterDensity.value;
  if (!(space >= 0)) {
    throw new RangeError(
      `A crop of ${(100 * dryMatter).toFixed(0)} % dry matter cannot lie at ${wet.toFixed(0)} kg/m3 (${dry.toFixed(0)} kg DM/m3): solids and water ` +
      `alone would fill more than the whole volume; the most it can reach is ${densestDry(dryMatter).toFixed(0)} kg DM/m3.`,
    );
  }
  return space;
}

/** Dry density at which no pore space is left, kg DM/m3: nothing can be packed beyond it. */
export function densestDry(dryMatter: number): number {
  return 1 / (1 / solidDensity.value + (1 / dryMatter - 1) / waterDensity.value);
}
