/**
 * Dry matter lost between the clamp and the cow, share of what was ensiled. Each line stands for itself, with its range: they come from
 * different trials and are never added to one opaque total.
 */
import type { Range, Sourced } from "./sourced.ts";
import { LB_PER_FT3 } from "./us.ts";

const RUPPEL = "Ruppel 1992, Cornell MS thesis, alfalfa, 180 days, as tabulated in secondary sources";

/** Density (lb DM/ft3) and total storage loss (% of dry matter), row by row as tabulated; here to check the line against. */
export const lossTable: Sourced<readonly (readonly [number, number])[]> = {
  value: [[10, 20.2], [14, 16.8], [15, 15.9], [16, 15.1], [18, 13.4], [22, 10.0]], unit: "lb DM/ft3 -> %", source: RUPPEL, mark: "published",
};

/** The line through that table: loss in % = at - per x, x in lb DM/ft3. It is a total storage loss at that density, not the part that packing could save. */
export const lossLine = {
  at: { value: 28.7, unit: "%", source: RUPPEL, mark: "published" },
  per: { value: 0.85, unit: "% per lb DM/ft3", source: RUPPEL, mark: "published" },
} as const satisfies Record<string, Sourced>;

/** Densities the line was drawn through, kg DM/m3. */
export const lossLineRange: Range = [10 * LB_PER_FT3, 22 * LB_PER_FT3];

/** What other trials found. */
export const contraryTrials = {
  corn: { value: 9, unit: "% units lower, the same slope", source: "four corn bunkers, beside Ruppel's line", mark: "published" },
  grass: { value: 0, unit: "% difference in recovery", source: "a grass trial at 222 and 204 kg DM/m3", mark: "published" },
} as const satisfies Record<string, Sourced>;

/** Total storage loss at a density (kg DM/m3): `high` by Ruppel's alfalfa line, `low` by the corn bunkers below it; shares, never below 0. See `lossLineRange`. */
export function lossAtDensity(density: number): { low: number; high: number } {
  const percent = lossLine.at.value - (lossLine.per.value * density) / LB_PER_FT3;
  return { low: Math.max(0, percent - contraryTrials.corn.value) / 100, high: Math.max(0, percent) / 100 };
}

/**
 * Share of dry matter a change of density saves (negative: costs), both kg DM/m3: `bySlope` by the slope two trials share, `byGrassTrial`
 * by the one that found no difference. Show both ends.
 */
export function lossSaved(from: number, to: number): { bySlope: number; byGrassTrial: number } {
  return { bySlope: (lossLine.per.value * (to - from)) / LB_PER_FT3 / 100, byGrassTrial: contraryTrials.grass.value / 100 };
}

/** Published ranges that no verified relation narrows. */
export const rangesOnly = {
  fermentation: { value: [0.015, 0.06], unit: "1", source: "ranges in print for fermentation in bunkers", mark: "published" },
  face: { value: [0.01, 0.15], unit: "1", source: "ranges in print for the open face at feed-out", mark: "published" },
} as const satisfies Record<string, Sourced<Range>>;

/** Delay before sealing: no verified rate exists, so none is offered; this is the evidence, in words. */
export const sealingDelay = {
  evidence:
    "In one comparison a bunker filled over 8 days gave back 72 % of its dry matter, one filled over 4 days 91 %; the slow one was also drier " +
    "(52 against 72 % moisture) and another year's crop.",
  source: "Conservation and feed value of low moisture orchardgrass stored in gas-tight and bunker silos, abstract",
  mark: "published",
  caution: "Seal without delay. How much each day costs is not known well enough to put a figure on it.",
} as const;
