/** The published relation written out for tests, from the US form alone: how long N equal tractors must roll on a load, and what that gives. */
import { densityUS, packingFactorUS } from "../../sim/forage/packing.ts";
import { FOOT, INCH, LB_PER_FT3, POUND, US_TON } from "../../sim/forage/us.ts";

export interface EqualCrew {
  /** kg, each tractor */ readonly mass: number;
  /** kg fresh */ readonly load: number;
  readonly dryMatter: number;
  /** m */ readonly layer: number;
  /** m */ readonly depth: number;
}

/** kg DM/m3 that a load has after so many tractor seconds of rolling by equal tractors. */
export function densityAfter(seconds: number, { mass, load, dryMatter, layer, depth }: EqualCrew): number {
  // One tractor delivering a load in `seconds` has N/C tractor hours per ton.
  const tonPerHour = load / US_TON / (seconds / 3600);
  return densityUS(packingFactorUS(mass / POUND, layer / INCH, dryMatter, 1, tonPerHour), depth / FOOT) * LB_PER_FT3;
}

/** Tractor seconds that give a load this density: the relation turned round by hand. */
export function secondsFor(density: number, { mass, load, dryMatter, layer, depth }: EqualCrew): number {
  const factor = (density / LB_PER_FT3 / (0.818 + (0.0136 * depth) / FOOT) - 8.5) / 0.0155;
  const hoursPerTon = (factor * (layer / INCH) / (mass / POUND)) ** 2 / dryMatter;
  return hoursPerTon * 3600 * (load / US_TON);
}
