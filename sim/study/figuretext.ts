/** Figures of a study as text, for the terminal and the page: values, differences and their limits, and what a remedy changes, in the reader's units. */
import { clockOf } from "../findings/clock.ts";
import type { MeasureName } from "../findings/types.ts";
import { MEASURE_WORDS, measureNumber, measureUnit } from "../findings/words.ts";
import { formatNumber, formatQuantity, inDisplayUnit, type UnitSystem } from "../scenario/units.ts";
import type { Difference } from "./difference.ts";
import type { FigureName } from "./figures.ts";
import type { Remedy } from "./remedies.ts";

export interface Reader {
  readonly system: UnitSystem;
  readonly currency: string;
}

/** Share of gain under which one unit more is told as worth nothing: it would round to 0.0 % (assumption of this project). */
export const LEAST_GAIN = 0.0005;

/** The figure's name, with its unit where it has one. */
export function figureLabel(name: FigureName, { system, currency }: Reader): string {
  if (name === "closedAt") return "Clamp closed at";
  const unit = measureUnit(name, system);
  const { label } = MEASURE_WORDS[name];
  return unit === "" ? label : `${label}, ${unit.startsWith("per ") ? `${currency} ${unit}` : unit}`;
}

/** A measure as a bare number; a density in pounds needs a digit after the point to tell plans apart. */
function bare(name: MeasureName, value: number, system: UnitSystem): string {
  return system === "us" && MEASURE_WORDS[name].as?.dimension === "density" ? formatNumber(inDisplayUnit(value, "density", system), 1) : measureNumber(name, value, system);
}

/** A value as a bare number in the reader's unit; a time of day as such. */
export function figureValue(name: FigureName, value: number, { system }: Reader): string {
  return name === "closedAt" ? clockOf(value * 3600).replace(/ \(\+(\d+) days?\)/u, "+$1d") : bare(name, value, system);
}

/** A difference with its sign; a time in hours and minutes. */
export function signed(name: FigureName, value: number, { system }: Reader): string {
  const sign = value < 0 ? "-" : "+";
  if (name === "closedAt") {
    const minutes = Math.round(Math.abs(value) * 60);
    return `${minutes === 0 ? "" : sign}${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
  }
  const text = bare(name, Math.abs(value), system);
  return Number(text.replaceAll(",", "")) === 0 ? text : `${sign}${text}`;
}

/** The limits of a difference. */
export function limits(name: FigureName, { low, high }: Difference, reader: Reader): string {
  const [from, to] = [signed(name, low, reader), signed(name, high, reader)];
  return from === to ? "" : `${from} to ${to}`;
}

/** The remedy in words, with the figure that it changes. */
export function remedyLabel({ what, figure }: Pick<Remedy, "what" | "figure">, { system }: Reader): string {
  if (figure === null) return what;
  const { dimension, from, to } = figure;
  if (dimension === "clock") return `${what}: ${clockOf(to)} instead of ${clockOf(from)}`;
  // A tractor of 33,069 lb needs no tenth of a pound.
  const say = (value: number) => (dimension === null ? String(value) : formatQuantity(value, dimension, system, inDisplayUnit(value, dimension, system) >= 1000 ? 0 : undefined).replace(/\.0 /u, " "));
  if (dimension === "machineMass" && (from === 0 || to === 0)) return `${what} (${say(from + to)})`;
  return `${what}: ${say(to)} instead of ${say(from)}`;
}
