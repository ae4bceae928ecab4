/**
 * Two plans on the same days: the mean of their paired differences with its limits, and what the pairing is worth. Luck belongs to a
 * place, an activity and an ordinal, so both plans meet the same of it (common random numbers), and most of it falls out of the difference.
 */
import { mean, sampleCorrelation, sampleStandardDeviation, sampleVariance } from "simple-statistics";
import studentQuantile from "@stdlib/stats-base-dists-t-quantile";

export interface Difference {
  readonly mean: number;
  readonly sd: number;
  /** confidence limits of the mean difference, by Student's t on the paired days */ readonly low: number;
  readonly high: number;
  readonly unit: string;
  /** zero lies outside the limits, by more than rounding */ readonly sure: boolean;
  /** between the two plans' days; null when one of them does not vary */ readonly correlation: number | null;
  /** days of separate luck that one paired day is worth: the sum of both variances over the variance of the difference; null when nothing varies or all luck falls out */
  readonly luckGain: number | null;
}

/** Share of a value that counts as rounding. */
const ROUNDING = 1e-9;

/**
 * From plan `a` to plan `b`, one value a day, the same day at the same place in both. Null when a day gives no such figure.
 * @param confidence chance that limits hold the true mean, for one difference
 */
export function differenceOf(a: readonly number[], b: readonly number[], unit: string, confidence = 0.95): Difference | null {
  const n = a.length;
  if (n === 0 || n !== b.length || ![...a, ...b].every((value) => Number.isFinite(value))) return null;
  const differences = b.map((value, i) => value - a[i]!);
  const m = mean(differences);
  const noise = ROUNDING * Math.max(...a.map(Math.abs), ...b.map(Math.abs), Number.MIN_VALUE);
  if (n === 1) return { mean: m, sd: 0, low: m, high: m, unit, sure: Math.abs(m) > noise, correlation: null, luckGain: null };
  const sd = sampleStandardDeviation(differences);
  const half = (studentQuantile((1 + confidence) / 2, n - 1) * sd) / Math.sqrt(n);
  const [ofA, ofB] = [sampleVariance(a as number[]), sampleVariance(b as number[])];
  const varies = Math.min(ofA, ofB) > noise * noise;
  return {
    mean: m, sd, low: m - half, high: m + half, unit,
    sure: m - half > noise || m + half < -noise,
    correlation: varies ? sampleCorrelation(a as number[], b as number[]) : null,
    luckGain: sd > noise && ofA + ofB > noise * noise ? (ofA + ofB) / (sd * sd) : null,
  };
}
