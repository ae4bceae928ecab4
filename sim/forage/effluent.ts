/** Juice that runs from wet silage. Bastiman 1976: litres per tonne = 767 - 5.34 d + 0.00936 d2, d the dry matter in g/kg. */
import type { Sourced } from "./sourced.ts";

/** The curve's coefficients, by power of d. */
export const effluentCurve = {
  value: [767, -5.34, 0.00936], unit: "L/t fresh, d in g/kg", source: "Bastiman 1976", mark: "published, figure from memory", range: [150, 285],
  note: "The range is of d, g/kg. Beyond it the curve turns up again.",
} as const satisfies Sourced<readonly [number, number, number]>;

/** Dry matter at which the straight tail reaches zero. */
export const effluentEnds: Sourced = {
  value: 300, unit: "g/kg", source: "a straight line from the end of Bastiman's curve", mark: "assumption of this project", range: [290, 320],
  note: "None is published above about 29-32 % dry matter in bunkers.",
};

const curve = (d: number) => effluentCurve.value[0] + d * (effluentCurve.value[1] + d * effluentCurve.value[2]);
const [, CURVE_END] = effluentCurve.range;

/** Litres per tonne of fresh crop, from the dry matter share. Below 15 % dry matter the curve is carried on outside its range. */
export function effluent(dryMatter: number): number {
  const d = 1000 * dryMatter;
  if (d <= CURVE_END) return curve(d);
  return Math.max(0, (curve(CURVE_END) * (effluentEnds.value - d)) / (effluentEnds.value - CURVE_END));
}
