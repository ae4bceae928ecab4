/** How the figures of an explanation are written for the reader. */
import { formatNumber } from "../../sim/scenario/units.ts";
import { words } from "../words.ts";
import { lessonSheet } from "../words/lessons.ts";
import { number, quantity, unitName, type UnitSystem } from "../quantity.ts";
import { measureIn } from "../sentences.ts";

export interface Say {
  readonly system: UnitSystem;
  /** @param value kg DM/m3 */ density(value: number): string;
  /** @param value t/h */ rate(value: number): string;
  /** @param value t; a decimal where it says something */ mass(value: number): string;
  /** @param value share of 1 */ share(value: number): string;
  /** a gain or a loss, as a share of 1, in words */ gain(value: number): string;
  /** @param value min */ minutes(value: number): string;
  /** @param value h */ hours(value: number): string;
  /** @param value min/t */ packing(value: number): string;
  days(value: number): string;
  money(value: number, currency: string): string;
  /** @param value per t */ perTonne(value: number, currency: string, digits?: number): string;
  range(low: string, high: string): string;
  scatter(band: string): string;
}

export const sayIn = (system: UnitSystem): Say => ({
  system,
  density: (value) => quantity(value, "density", system),
  rate: (value) => quantity(value / 3.6, "flow", system),
  mass: (value) => quantity(value * 1000, "mass", system, Math.abs(value) < 9.95 ? 1 : 0),
  share: (value) => `${formatNumber(value * 100, Math.abs(value) < 0.0995 && value !== 0 ? 1 : 0)} %`,
  gain: (value) => (Math.abs(value) < 5e-4 ? words.side.same : lessonSheet.gain(`${formatNumber(Math.abs(value) * 100, 1)} %`, value > 0)),
  minutes: (value) => `${formatNumber(value, value < 9.95 ? 1 : 0)} min`,
  hours: (value) => `${formatNumber(value, 1)} h`,
  packing: (value) => `${number(value * 0.06, "packingTime", system)} ${unitName("packingTime", system)}`,
  days: (value) => `${formatNumber(value, value < 9.95 ? 1 : 0)} ${lessonSheet.days}`,
  money: (value, currency) => `${formatNumber(value, 0)} ${currency}`,
  perTonne: (value, currency, digits = 2) => `${formatNumber(value * measureIn(system, "per t").factor, digits)} ${currency}`,
  range: (low, high) => words.figures.range(low, high),
  scatter: (band) => lessonSheet.scatter(band),
});

