/**
 * Sentences from the engine speak metric. For a reader of US units the quantities in them are turned, figure by figure, with as many
 * significant digits as the sentence had; everything else stays word for word.
 */
import { inEnglish } from "./english.ts";
import { printed, shownIn, type DimensionName, type UnitSystem } from "./quantity.ts";
import { formatNumber, toSI } from "../sim/scenario/units.ts";

/** Metric units as the engine writes them, what they measure, and what a US reader sees; longer ones first. */
const UNITS: readonly (readonly [written: string, dimension: DimensionName, base: string, us: string])[] = [
  ["kg DM/m3", "density", "kg/m3", "lb DM/ft3"],
  ["kg/m3", "density", "kg/m3", "lb/ft3"],
  ["min/t", "packingTime", "min/t", "min/ton"],
  ["t/ha", "yield", "t/ha", "ton/acre"],
  ["t/h", "flow", "t/h", "ton/h"],
  ["m2/h", "coverPace", "m2/h", "ft2/h"],
  ["km/h", "speed", "km/h", "mph"],
  ["t", "mass", "t", "ton"],
  ["kW", "power", "kW", "hp"],
  ["kPa", "pressure", "kPa", "psi"],
  ["km", "distance", "km", "mi"],
  ["cm", "thickness", "cm", "in"],
  ["mm", "chop", "mm", "in"],
  ["m2", "surface", "m2", "ft2"],
  ["m3", "volume", "m3", "ft3"],
  ["ha", "area", "ha", "acre"],
  ["L", "fluid", "L", "gal"],
  ["m", "length", "m", "ft"],
];

const QUANTITY = new RegExp(`(?<![\\w.,-])(\\d[\\d,]*(?:\\.\\d+)?)((?: (?:to|and|-) )(\\d[\\d,]*(?:\\.\\d+)?))? (${UNITS.map(([written]) => written).join("|")})(?![\\w/])`, "g");

/** A figure and the unit behind it stay on one line. */
const FIGURE_AND_UNIT = /(\d) (?=(?:kg|t|ton|lb|km|mi|m|cm|in|ft|ha|acre|min|h|s|L|gal|kW|hp|kPa|psi|%)(?![\w]))/g;

/** The sentence in the reader's units, with raised figures in the units. */
export function textIn(system: UnitSystem, text: string): string {
  const kept = (sentence: string) => printed(inEnglish(sentence).replaceAll(FIGURE_AND_UNIT, "$1\u00a0").replaceAll(/\b(kg|lb) DM\b/g, "$1\u00a0DM"));
  if (system === "metric") return kept(text);
  return kept(text.replace(QUANTITY, (_, first: string, range: string | undefined, second: string | undefined, unit: string) => {
    const [, dimension, base, us] = UNITS.find(([written]) => written === unit)!;
    const turned = (figure: string) => turn(figure, dimension, base);
    return `${turned(first)}${range === undefined ? "" : range.replace(second!, turned(second!))} ${us}`;
  }));
}

/** A figure in the reader's unit with as many significant digits as it had, and two at least; whole numbers stay whole where they are large. */
function turn(figure: string, dimension: DimensionName, base: string): string {
  const plain = figure.replaceAll(",", "");
  const digits = Math.max(2, plain.replace(/^0*\.?0*/, "").replace(".", "").length);
  const us = shownIn(toSI(Number(plain), base, dimension), dimension, "us");
  if (us === 0) return "0";
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(us))));
  return formatNumber(us, Math.min(decimals, 3));
}

/** What a measure's unit is for the reader, and what its figure is to be multiplied by. A share of 1 is shown in per cent. */
export function measureIn(system: UnitSystem, unit: string): { readonly unit: string; readonly factor: number } {
  if (unit === "1" || unit === "1/h") return { unit: "", factor: 1 };
  const [per, rest] = /^per t\b(.*)$/.exec(unit) ? ["per ", unit.slice(5)] : ["", null];
  if (per !== "") return system === "us" ? { unit: `per ton${rest}`, factor: toSI(1, "ton", "mass") / 1000 } : { unit, factor: 1 };
  const known = UNITS.find(([written]) => written === unit);
  if (system === "metric" || !known) return { unit: printed(unit), factor: 1 };
  return { unit: printed(known[3]), factor: shownIn(toSI(1, known[2], known[1]), known[1], "us") };
}
