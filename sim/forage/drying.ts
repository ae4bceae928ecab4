/** How a crop dries while it waits for the chopper: a standing one by the day, a mown one by the hour. */
import type { Sourced } from "./sourced.ts";
import { dryDown } from "./window.ts";

const DAY = 86_400;
const HOUR = 3600;

/** Standing corn: see `dryDown`, the one published rate. Its range, of county means, is taken for the spread between campaigns. */
const corn: Sourced = dryDown;

const sorghum: Sourced = { ...dryDown, source: `no figure found in print: that of corn, ${dryDown.source}`, mark: "assumption of this project" };

const mown: Sourced = {
  value: 1, unit: "% units an hour", source: "no figure found in print that holds for a swath in any weather", mark: "assumption of this project", range: [0.5, 1.5],
};

/** How a crop waits: a standing one dries every day of the calendar, a mown one in the hours of the day it is brought in on. */
export interface Drying {
  readonly way: "standing" | "mown";
  /** as printed, see its unit */ readonly rate: Sourced;
  /** share of fresh mass a second */ readonly perSecond: number;
}

/** Corn and sorghum are chopped standing, every other crop is mown first (assumption of this project). */
export function dryingOf(crop: string): Drying {
  if (crop === "corn" || crop === "sorghum") {
    const rate = crop === "corn" ? corn : sorghum;
    return { way: "standing", rate, perSecond: rate.value / 100 / DAY };
  }
  return { way: "mown", rate: mown, perSecond: mown.value / 100 / HOUR };
}

/**
 * The spread of a rate between campaigns as a triangle of factors with mean 1, so that the rate stays the mean: its ends are those of the range
 * over the rate, its peak follows. That a triangle describes it is an assumption of this project.
 */
export function dryingSpread({ value, range }: Sourced): { readonly kind: "triangular"; readonly low: number; readonly mode: number; readonly high: number } {
  const [low, high] = range ? [range[0] / value, range[1] / value] : [1, 1];
  return { kind: "triangular", low, mode: Math.min(high, Math.max(low, 3 - low - high)), high };
}

/** Beyond this a crop is hay, straw or grain and dries no further here (assumption of this project). */
export const DRIEST = 0.9;

/** Dry matter after so many seconds of drying at a rate (share a second): a straight line, as the published rate is one. Never below what it was. */
export function dried(dryMatter: number, perSecond: number, seconds: number): number {
  return Math.max(dryMatter, Math.min(DRIEST, dryMatter + perSecond * Math.max(0, seconds)));
}
