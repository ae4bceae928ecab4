/**
 * Rules of thumb for packing, side by side. They disagree by a factor of two, so all are shown; none drives the simulation.
 */
import type { Sourced } from "./sourced.ts";
import { POUND, US_TON } from "./us.ts";

/** Tractor mass wanted for a delivery rate. */
export const massRules = {
  eightHundred: {
    value: 400, unit: "kg of tractor per t/h", mark: "published", source: "common practice as printed in extension and trade press",
    note: "800 lb of tractor per US ton an hour",
  },
  oneThird: {
    value: 1000 / 3, unit: "kg of tractor per t/h", mark: "published", source: "common practice as printed in extension and trade press",
    note: "tractor mass one third of the hourly fresh mass",
  },
  oneTractor: {
    value: (40000 * POUND) / ((90 * US_TON) / 1000), unit: "kg of tractor per t/h", mark: "published",
    source: "trade press, after Holmes (Wisconsin) and Jofriet (Guelph)", note: "one tractor of 40,000 lb handles about 90 US ton an hour",
  },
} as const satisfies Record<string, Sourced>;
export type MassRule = keyof typeof massRules;

/** The thickest loose layer advised. */
export const thickestLayer: Sourced = { value: 0.15, unit: "m", source: "6 in, extension advice and trade press", mark: "published" };

/** Packing time seen on farms, by delivery rate. Between the two rates nothing was printed. */
export const observedMinutes = {
  slow: { value: [1, 4], unit: "min per US ton, under 30 US ton/h", source: "farm observations printed in trade press", mark: "published" },
  fast: { value: [0, 1], unit: "min per US ton, over 60 US ton/h", source: "farm observations printed in trade press", mark: "published" },
} as const satisfies Record<string, Sourced<readonly [number, number]>>;

/** What one rule says about a crew. */
export interface ThumbSays {
  readonly rule: MassRule;
  /** kg of tractor the rule wants */ readonly massWanted: number;
  /** kg/s the rule grants this crew */ readonly rateGranted: number;
  readonly enough: boolean;
}

/** What each rule says for a crew's whole tractor mass (kg) and a delivery rate (kg/s). */
export function rulesOfThumb(tractorMass: number, deliveryRate: number): ThumbSays[] {
  return (Object.keys(massRules) as MassRule[]).map((rule) => {
    const secondsOfMass = massRules[rule].value * 3.6; // kg per t/h is 3.6 kg per kg/s
    const massWanted = secondsOfMass * deliveryRate;
    return { rule, massWanted, rateGranted: tractorMass / secondsOfMass, enough: tractorMass >= massWanted };
  });
}

/** Packing time seen on farms at this delivery rate (kg/s), as seconds per kg from low to high; null where nothing was printed. */
export function observedPackingTime(deliveryRate: number): [number, number] | null {
  const tonPerHour = (deliveryRate * 3600) / US_TON;
  const seen = tonPerHour < 30 ? observedMinutes.slow : tonPerHour > 60 ? observedMinutes.fast : null;
  return seen && [(seen.value[0] * 60) / US_TON, (seen.value[1] * 60) / US_TON];
}
