/** Figures of a study as text, for the terminal and the page: values, differences and their limits, and what a remedy changes, in the reader's units. */
import { clockOf } from "../findings/clock.ts";
import { machineMass, MEASURE_WORDS, measureNumber, measureUnit } from "../findings/words.ts";
import { formatQuantity, inDisplayUnit, type UnitSystem } from "../scenario/units.ts";
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

/** A value as a bare number in the reader's unit; a time of day as such. */
export function figureValue(name: FigureName, value: number, { system }: Reader): string {
  return name === "closedAt" ? clockOf(value * 3600).replace(/ \(\+(\d+) days?\)/u, "+$1d") : measureNumber(name, value, system);
}

/** As long as a plus. */
export const MINUS = "\u2212";

/** A difference with its sign; a time in hours and minutes. */
export function signed(name: FigureName, value: number, { system }: Reader): string {
  const sign = value < 0 ? MINUS : "+";
  if (name === "closedAt") {
    const minutes = Math.round(Math.abs(value) * 60);
    return `${minutes === 0 ? "" : sign}${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
  }
  const text = measureNumber(name, Math.abs(value), system);
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
  const say = (value: number) => {
    if (dimension === null) return String(value);
    if (dimension === "machineMass") return machineMass(value, system);
    // From twenty on a tenth says nothing: 66 ton of apron, not 66.1.
    return formatQuantity(value, dimension, system, inDisplayUnit(value, dimension, system) >= 20 ? 0 : undefined).replace(/\.0 /u, " ");
  };
  if (dimension === "machineMass" && (from === 0 || to === 0)) return `${what} (${say(from + to)})`;
  return `${what}: ${say(to)} instead of ${say(from)}`;
}
