/** Figures as the reader sees them: a thin layer over the scenario's units, plus the wall clock and spans of time. */
import { displayUnit, formatNumber, inDisplayUnit, parse, toSI, type DimensionName, type UnitSystem } from "../sim/scenario/units.ts";

export type { DimensionName, UnitSystem };

/** A unit as it is printed: raised figures instead of plain ones, e.g. `kg/m³`. */
export function printed(unit: string): string {
  return unit.replaceAll(/(?<=m|ft)2\b/g, "²").replaceAll(/(?<=m|ft)3\b/g, "³");
}

/** An SI figure with the reader's unit, e.g. `16 t/h`. */
export function quantity(si: number, dimension: DimensionName, system: UnitSystem, digits?: number): string {
  return `${number(si, dimension, system, digits)} ${unitName(dimension, system)}`;
}

/** The figure alone; whole numbers for US lb of machine mass, one decimal for US density, as the trade writes them. */
export function number(si: number, dimension: DimensionName, system: UnitSystem, digits: number = DIGITS[dimension]?.[system] ?? 0): string {
  const shown = inDisplayUnit(si, dimension, system);
  if (dimension !== "machineMass") return formatNumber(shown, digits);
  // Nobody weighs a tractor to the pound, and one of 14 t is not one of 14.0 t: decimals only where they say something.
  if (system === "us") return formatNumber(Math.round(shown / 100) * 100, 0);
  return formatNumber(shown, Math.abs(shown - Math.round(shown)) < 0.05 ? 0 : digits);
}

/** Figures with a true minus, as long as a plus, in place of a hyphen. */
export const withMinus = (text: string): string => text.replaceAll(/(?<!\w)-(?=\d)/g, "\u2212");

export function unitName(dimension: DimensionName, system: UnitSystem): string {
  return printed(displayUnit(dimension, system));
}

/** Decimals that deserve to be shown, where they are not 0. */
const DIGITS: Partial<Record<DimensionName, Record<UnitSystem, number>>> = {
  area: { metric: 1, us: 1 },
  distance: { metric: 1, us: 1 },
  speed: { metric: 1, us: 1 },
  yield: { metric: 0, us: 1 },
  thickness: { metric: 0, us: 1 },
  machineMass: { metric: 1, us: 0 },
  density: { metric: 0, us: 1 },
  packingTime: { metric: 2, us: 2 },
};

/** A share of 1 in per cent, without the sign. */
export const percent = (share: number, digits = 0): string => (100 * share).toFixed(digits);

/** A number in the reader's unit as a scenario document says it, e.g. `12 cm`: in the unit it was given in, so that nothing is lost by turning it. */
export function written(shown: number, dimension: DimensionName, system: UnitSystem): string {
  return `${Number(shown.toFixed(6))} ${displayUnit(dimension, system)}`;
}

/** SI value of a quantity in a document, or null when it is none of this dimension. */
export function read(value: unknown, dimension: DimensionName): number | null {
  if (typeof value !== "string") return null;
  const parsed = parse(value, dimension);
  return "value" in parsed ? parsed.value : null;
}

/** An SI value as a plain number in the reader's unit. */
export function shownIn(si: number, dimension: DimensionName, system: UnitSystem): number {
  return inDisplayUnit(si, dimension, system);
}

/** SI value of a number in the reader's unit. */
export function fromShown(shown: number, dimension: DimensionName, system: UnitSystem): number {
  return toSI(shown, displayUnit(dimension, system), dimension);
}

/** Wall clock `HH:MM` of s after midnight; the hours run on past 24 when the day does. */
export function clock(seconds: number): string {
  const minutes = Math.floor(seconds / 60 + 1e-6);
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

/** s after midnight of a wall clock `HH:MM` or `HH:MM:SS`, or null when it is none. */
export function secondsOfClock(text: string): number | null {
  const match = /^(\d{1,3}):([0-5]\d)(?::([0-5]\d))?$/.exec(text.trim());
  return match ? Number(match[1]) * 3600 + Number(match[2]) * 60 + Number(match[3] ?? 0) : null;
}

/** A span in the words of a yard: `40 s`, `12 min`, `2 h 05 min`. */
export function span(seconds: number): string {
  if (seconds < 59.5) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  return minutes < 100 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")} min`;
}
