/** The figures that studies compare: every measure of the day, and the time of day at which the clamp is closed. */
import type { DayFacts } from "../findings/facts.ts";
import { MEASURES, type MeasureName } from "../findings/types.ts";
import type { Scenario } from "../scenario/types.ts";

/** `closedAt`: h after midnight. The measure `finishedAt` counts from the start of the shift, which a plan may move. */
export type FigureName = MeasureName | "closedAt";

export const FIGURES: Readonly<Record<FigureName, string>> = { ...MEASURES, closedAt: "h" };

export const FIGURE_NAMES = Object.keys(FIGURES) as readonly FigureName[];

/** Which way is better for whoever runs the day; null where it depends. */
export const BETTER: Readonly<Record<FigureName, "more" | "less" | null>> = {
  delivered: "more", deliveryRate: "more", loads: null, loadsPerHour: "more",
  packingRateAtTarget: "more", packingTimePerTonne: null,
  dryDensity: "more", wetDensity: "more", poreSpace: "less", shareUnderTarget: "less",
  fillTime: "less", finishedAt: "less", closedAt: "less",
  chopperWaiting: "less", chopperCutting: "more", chopperWaitingOnStorage: "less",
  truckWaiting: "less", truckCycle: "less",
  apronPeak: null, apronMean: null, packingIdle: null, debtPeak: "less",
  dryMatterStored: "more", dryMatterFed: "more", costPerTonne: "less", costPerTonneFed: "less", fuel: "less",
};

/** One figure, a value a day; NaN on a day that gives no such figure. */
export function figureOf(_scenario: Scenario, days: readonly DayFacts[], name: FigureName): number[] {
  if (name === "closedAt") return days.map((day) => day.from / 3600 + day.measures.finishedAt);
  return days.map((day) => day.measures[name]);
}

/** True when every day gives a number. */
export const isWhole = (values: readonly number[]): boolean => values.length > 0 && values.every((value) => Number.isFinite(value));

/** The cost that a ranking goes by: per tonne fed where every day gives it, else per tonne delivered. */
export function costFigure(plans: readonly { readonly scenario: Scenario; readonly days: readonly DayFacts[] }[]): "costPerTonneFed" | "costPerTonne" {
  return plans.every(({ scenario, days }) => isWhole(figureOf(scenario, days, "costPerTonneFed"))) ? "costPerTonneFed" : "costPerTonne";
}

/** More crop left standing than nobody would speak of, kg (assumption of this project). */
export const LEFT_STANDING = 500;
