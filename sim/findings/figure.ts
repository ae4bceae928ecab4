/** How figures stand in derivations, cautions and notes: metric, plain digits, the unit behind them. */
import { listed } from "../scenario/words.ts";

/** A figure with its unit, rounded to so many significant digits; the unit "1" is left away. */
export function figure(value: number, unit: string, digits = 5): string {
  if (!Number.isFinite(value)) return value === Infinity ? "never" : "not known";
  return `${Number(value.toPrecision(digits))}${unit === "1" ? "" : ` ${unit}`}`;
}

/** A share as per cent, so many decimals kept. */
export const percent = (share: number, decimals = 0): string => `${Number((100 * share).toFixed(decimals))} %`;

/** kg as tonnes, whole from 20 t on, else one decimal. */
export const tonnes = (kg: number): string => `${Number((kg / 1000).toFixed(kg >= 20_000 ? 0 : 1))} t`;

/** Names in a sentence: `A and B`, or the first ones and how many more. */
export function named(names: readonly string[], most = 3): string {
  return listed(names.length > most ? [...names.slice(0, most - 1), `${names.length - most + 1} others`] : names, "and");
}

/** The mean of a figure over some items; NaN over none. */
export const meanOver = <T>(items: readonly T[], of: (item: T) => number): number => items.reduce((sum, item) => sum + of(item), 0) / items.length;
