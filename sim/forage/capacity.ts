/** Field capacity by hand, for the hand check and beside what a chopper did in the rehearsed day. ASABE EP496. */
import type { Range, Sourced } from "./sourced.ts";

/** Share of the theoretical area rate that a forage harvester keeps in the field. In the rehearsed day it is a result, never an input. */
export const fieldEfficiency: Sourced = {
  value: 0.7, unit: "1", source: "ASABE D497, forage harvester", mark: "published, figure from memory", range: [0.6, 0.85],
};

/** Usual working speed of a forage harvester. */
export const workingSpeed: Sourced<Range> = {
  value: [2.5, 10], unit: "km/h", source: "ASABE D497, forage harvester", mark: "published, figure from memory", range: [2.5, 10],
};

const SEVEN_FARMS = "Harrigan 2003, Applied Engineering in Agriculture 19(4), abstract: seven farms with wagons alongside";

/** Share of a chopper's cycle that it chopped there, and minutes of a truck's round besides filling and road. In the rehearsed day both are results. */
export const cyclesSeen = {
  chopping: { value: 0.85, unit: "1", source: SEVEN_FARMS, mark: "published", note: "about; the rest was turning and waiting" },
  besideRoad: { value: 7.5, unit: "min", source: SEVEN_FARMS, mark: "published", note: "about" },
} as const satisfies Record<string, Sourced>;

/** Square feet an hour in one acre an hour at one foot and one mile an hour, 43,560 / 5,280. */
export const acreDivisor: Sourced = { value: 8.25, unit: "ft mi / acre", source: "ASABE EP496", mark: "published" };

/** Area rate, m2/s, from working width (m), speed (m/s) and field efficiency. In ha/h, m and km/h this is width x speed x efficiency / 10. */
export function areaRate(width: number, speed: number, efficiency: number): number {
  return width * speed * efficiency;
}

/** Material rate, kg/s, from an area rate (m2/s) and a yield as harvested (kg/m2). */
export function materialRate(area: number, yieldPerArea: number): number {
  return area * yieldPerArea;
}

/** Area rate in acres an hour, the form printed in the US: width in feet, miles an hour; here to check the metric form against. */
export function acresPerHour(widthFt: number, mph: number, efficiency: number): number {
  return (widthFt * mph * efficiency) / acreDivisor.value;
}
