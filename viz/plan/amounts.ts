/** Quantities as the editor shows them: in the unit that the plan was written in, unless that belongs to the other system of units. */
import type { Json } from "../document.ts";
import { fromShown, read, shownIn, type DimensionName, type UnitSystem } from "../quantity.ts";
import { displayUnit } from "../../sim/scenario/units.ts";

/** An amount in one unit. */
export interface Shown { readonly figure: number; readonly unit: string }

/** Units that both systems use, and units of the United States; the others are metric. */
const OF_BOTH = /^(s|min|h|day|%|years?|per h)$/;
const OF_US = /\b(in|ft|ft2|ft3|mi|mph|mi\/h|lb|ton|acre|gal|hp|psi)\b/;

/** What a plan says, for a reader of this system; null when it is no amount of this dimension. */
export function shownOf(value: Json | undefined, dimension: DimensionName, system: UnitSystem): Shown | null {
  if (dimension === "share") {
    const si = typeof value === "number" ? value : read(value, "share") ?? bare(value);
    return si === null ? null : { figure: tidy(si * 100), unit: "%" };
  }
  const si = read(value, dimension);
  if (si === null || typeof value !== "string") return null;
  const figure = Number.parseFloat(value);
  const unit = value.trim().replace(/^[+-]?[\d.]+(?:[eE][+-]?\d+)?\s*/, "").replaceAll("²", "2").replaceAll("³", "3");
  if (OF_BOTH.test(unit) || OF_US.test(unit) === (system === "us")) return { figure, unit };
  return { figure: tidy(shownIn(si, dimension, system), 3), unit: displayUnit(dimension, system) };
}

/** The unit for an amount that the plan does not say yet. */
export const unitFor = (dimension: DimensionName, system: UnitSystem): string => displayUnit(dimension, system);

/** What a reader typed, as a plan says it: a figure gets the unit beside it, a figure with a unit of its own keeps that; all else is left for the check to judge. */
export function typed(text: string, unit: string): string {
  const plain = text.trim().replace(/^(\d+),(\d+)(?=$|\s*[a-z%])/i, "$1.$2");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? `${Number(plain)} ${unit}` : plain;
}

/** `12, 15 cm` -> `12 cm`, `15 cm`: a figure without a unit takes the last one that is written, or the reader's own. */
export function amountsIn(text: string, unit: string): readonly string[] {
  const pieces = text.split(/\s*;\s*|,\s+/).map((piece) => piece.trim()).filter((piece) => piece !== "");
  const last = pieces.map((piece) => /^[\d.,]+\s*(\D.*)$/.exec(piece)?.[1]).findLast((found) => found !== undefined) ?? unit;
  return pieces.map((piece) => typed(piece, last));
}

/** One step of a figure: a tenth of its leading place; shares and whole things go by ones. */
export function stepOf(figure: number, unit: string): number {
  if (unit === "%" || unit === "" || unit === "min" || unit === "s") return 1;
  return figure === 0 ? 1 : 10 ** (Math.floor(Math.log10(Math.abs(figure))) - 1);
}

/** Figures as nobody would write them, to so many digits. */
export function tidy(figure: number, digits = 9): number {
  return Number(figure.toPrecision(digits));
}

/** The ends of a range in a unit. */
export function endsIn(unit: string, dimension: DimensionName, least: number, most: number): readonly [number, number] {
  const one = read(`1 ${unit}`, dimension) ?? fromShown(1, dimension, "metric");
  return [tidy(least / one), tidy(most / one)];
}

/** A number between two ends, both included; null for anything else. */
export function within(text: string, least: number, most: number): number | null {
  const value = /^\s*\d+(?:[.,]\d+)?\s*$/.test(text) ? Number(text.trim().replace(",", ".")) : NaN;
  return value >= least && value <= most ? value : null;
}

const bare = (value: unknown): number | null => (typeof value === "string" && /^\s*\d*\.?\d+\s*$/.test(value) ? Number(value) : null);
