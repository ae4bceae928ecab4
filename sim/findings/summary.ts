/** Many days in one figure: the mean with its confidence limits, the spread between days, and the value of a given day of so many. */
import { mean, sampleStandardDeviation } from "simple-statistics";
import studentQuantile from "@stdlib/stats-base-dists-t-quantile";
import type { Measure } from "./types.ts";

/**
 * The least of the values that this share of them does not exceed: on so many of the days it was no more. A value between two, as libraries
 * take it, would be exceeded on a day more than it says. At least one value.
 */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)]!;
}

/** Share of studies whose limits hold the true mean. */
const CONFIDENCE = 0.95;

/**
 * Sums up one value a rehearsal. `low` and `high` are 95 % limits of the mean by Student's t; with one rehearsal there is no spread to
 * judge by and both are the mean. Null when a rehearsal gives no such figure.
 */
export function summarise(values: readonly number[], unit: string): Measure | null {
  if (values.length === 0 || values.some((value) => !Number.isFinite(value))) return null;
  const m = mean(values as number[]);
  if (values.length === 1) return { mean: m, sd: 0, low: m, high: m, p10: m, p90: m, unit };
  const sd = sampleStandardDeviation(values as number[]);
  const half = (studentQuantile((1 + CONFIDENCE) / 2, values.length - 1) * sd) / Math.sqrt(values.length);
  return { mean: m, sd, low: m - half, high: m + half, p10: quantile(values, 0.1), p90: quantile(values, 0.9), unit };
}
