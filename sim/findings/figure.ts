/**
 * How figures stand in what the engine says: metric, the unit behind them, thousands set apart as in every table. A figure that stands in a
 * table too is said to the same digit.
 */
import { formatNumber } from "../scenario/units.ts";
import { listed } from "../scenario/words.ts";

/** A figure with its unit, rounded to so many significant digits but never beyond whole units; the unit "1" is left away. */
export function figure(value: number, unit: string, digits = 5): string {
  if (!Number.isFinite(value)) return value === Infinity ? "never" : "not known";
  const decimals = Math.min(20, Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value) || 1))));
  return `${shortened(formatNumber(value, decimals))}${unit === "1" ? "" : ` ${unit}`}`;
}

/** Without noughts that end a decimal. */
const shortened = (text: string): string => (text.includes(".") ? text.replace(/\.?0+$/u, "") : text);

/** How many: loads, days, hectares in whole ones. */
export const counted = (count: number): string => formatNumber(count, 0);

/** So many decimals at the most, and none that says nothing. */
export const upTo = (value: number, decimals: number): string => shortened(formatNumber(value, decimals));

/** A share as per cent, so many decimals kept. */
export const percent = (share: number, decimals = 0): string => `${upTo(100 * share, decimals)} %`;

/** A chance as per cent, never called none or certain: it is a figure of a model. */
export const likely = (chance: number): string => (chance < 0.005 ? `under ${percent(0.01)}` : chance >= 0.995 ? `over ${percent(0.99)}` : percent(chance));

/** kg as tonnes in a sentence: whole from 20 t on, else one decimal where it says something. */
export const tonnes = (kg: number): string => `${kg >= 20_000 ? counted(kg / 1000) : upTo(kg / 1000, 1)} t`;

/** A sum in a sentence, whole as in the account. */
export const sumOfMoney = (amount: number, currency: string): string => `${formatNumber(amount, 0)} ${currency}`;

/** m in a sentence: to the decimetre, or two figures where that would leave fewer. */
export const metres = (m: number): string => `${Number(m < 1 ? m.toPrecision(2) : m.toFixed(1))} m`;

/** Names in a sentence: `A and B`, or the first ones and how many more. */
export function named(names: readonly string[], most = 3): string {
  return listed(names.length > most ? [...names.slice(0, most - 1), `${names.length - most + 1} others`] : names, "and");
}

/** The mean of a figure over some items; NaN over none. */
export const meanOver = <T>(items: readonly T[], of: (item: T) => number): number => items.reduce((sum, item) => sum + of(item), 0) / items.length;
