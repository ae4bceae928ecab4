/** How often something happens, with its limits. */
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";

export interface Chance {
  readonly share: number;
  /** 95 % confidence limits */ readonly low: number;
  readonly high: number;
}

/**
 * A share of days with Wilson's score limits, which stay inside 0 to 1 and hold even where it always or never happened: Wilson 1927, Probable
 * inference, the law of succession, and statistical inference, Journal of the American Statistical Association 22(158):209-212 (formula from memory).
 */
export function chanceOf(often: number, days: number, confidence = 0.95): Chance {
  const share = often / days;
  const z = normalQuantile((1 + confidence) / 2, 0, 1);
  const middle = (share + (z * z) / (2 * days)) / (1 + (z * z) / days);
  const half = (z * Math.sqrt((share * (1 - share)) / days + (z * z) / (4 * days * days))) / (1 + (z * z) / days);
  return { share, low: often === 0 ? 0 : Math.max(0, middle - half), high: often === days ? 1 : Math.min(1, middle + half) };
}

/** The share where nothing is left to luck: one day says all. */
export const chanceWithoutLuck = (often: number, days: number): Chance => ({ share: often / days, low: often / days, high: often / days });
