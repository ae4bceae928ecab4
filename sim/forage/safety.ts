/**
 * Distances, slopes and waiting times that keep people alive around a storage. They are the least that was found in print; local codes,
 * the maker's limits and licensed practice go before them.
 */
import type { Sourced } from "./sourced.ts";

/** The hazards of silage work as a review lists them: roll-over, run-over, falls, collapse, gases, complacency or fatigue. */
export const hazardReview = {
  source: "Bolsen 2018, Silage review: Safety considerations during silage making and feeding, Journal of Dairy Science 101:4122-4131, abstract", mark: "published",
} as const;

/** Distance to keep from an open face, in heights of the face. */
export const standingDistance: Sourced = { value: 3, unit: "heights of the face", source: "Bolsen, in Hay & Forage Grower: rules against injury by a falling face", mark: "published" };

/** Steepest slope to drive and pack on, as run per rise. */
export const steepestSlope: Sourced = {
  value: 3, unit: "run per rise", source: "Bolsen, Filling bunker silos and drive-over piles: packing safety, trade press; Muck, in Hay & Forage Grower", mark: "published",
  note: "For driving across a slope 1:6 is also asked for (Carrabba, Northeast Center for Occupational Health and Safety, 2020).",
};

/** Least width of a storage, in widths of the widest packing tractor. */
export const leastWidth: Sourced = { value: 2, unit: "tractor widths", source: "extension advice on bunker width", mark: "published" };

/** Days after filling in which nitrogen dioxide and other gases from the silage may be dangerous. */
export const gasDays: Sourced = { value: 21, unit: "days", source: "Pennsylvania State University Extension, Silo gas poisoning", mark: "published", range: [14, 21] };

/** Highest face: what the unloader reaches. */
export const unloaderRule = { source: "Holmes, University of Wisconsin, in Dairy Herd Management", mark: "published" } as const;

/** Mass of a packing tractor from which the wall's rating should be known before it drives, kg. */
export const heavyTractor: Sourced = { value: 12_000, unit: "kg", source: "no figure found in print", mark: "assumption of this project" };

/** Attendance from which a day counts as long, s. */
export const longShift: Sourced = { value: 10 * 3600, unit: "s", source: "no figure found in print for this work", mark: "assumption of this project" };
