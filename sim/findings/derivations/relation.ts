/** The packing relation as a metric reader redoes it by hand; its figures are turned from the published ones, not written again. */
import { RELATION, surveyRange } from "../../forage/packing.ts";
import { isOutside } from "../../forage/sourced.ts";
import { FOOT, INCH, LB_PER_FT3, POUND, US_TON } from "../../forage/us.ts";

const digits = (value: number, significant: number) => String(Number(value.toPrecision(significant)));

const unpacked = digits(RELATION.unpacked * LB_PER_FT3, 6);
const perFactor = digits(RELATION.perFactor * LB_PER_FT3 * ((100 * INCH) / POUND) * Math.sqrt(US_TON / 1000), 6);
const perMetre = digits(RELATION.perFoot / FOOT, 5);

/** The metric form in symbols, and what the symbols mean. */
export const METRIC_RELATION =
  `density of a lift [kg DM/m3] = (${unpacked} + ${perFactor} (W / L) sqrt(DM E)) (${RELATION.atNoDepth} + ${perMetre} D); `
  + "W kg mean tractor mass weighted by packing time (heaviest first, as far as a lighter helper adds), L cm loose layer as spread, "
  + "DM dry matter as a decimal, E h/t tractor hours per tonne on that lift, D m mean depth of the storage";

/** The published form it was turned from. */
export const PUBLISHED_RELATION = `as published: ${RELATION.formula}, W lb, L in, N tractors rolling full time, C US ton/h, D ft`;

export const SURVEY = `${surveyRange.value[0]} to ${surveyRange.value[1]} ${surveyRange.unit} found in the survey`;

/** True for a density, kg DM/m3, that the survey never met. */
export const outsideSurvey = (density: number): boolean => isOutside(density, surveyRange.value);
