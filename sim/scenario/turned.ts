/** Sentences of the engine speak metric; for a reader of US units the quantities in them are turned, and everything else stays word for word. */
import { formatNumber, inDisplayUnit, toSI, type DimensionName } from "./units.ts";

/** Metric units as the engine writes them, what they measure, and what a US reader sees; longer ones first. */
export const TURNED_UNITS: readonly (readonly [written: string, dimension: DimensionName, base: string, us: string])[] = [
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

const QUANTITY = new RegExp(`(?<![\\w.,-])(\\d[\\d,]*(?:\\.\\d+)?)((?: (?:to|and|-) )(\\d[\\d,]*(?:\\.\\d+)?))? (${TURNED_UNITS.map(([written]) => written).join("|")})(?![\\w/])`, "g");

/** A price by what is weighed, poured or laid. */
const PRICE = /(?<![\w.,-])(\d[\d,]*(?:\.\d+)?)((?: [A-Z]{3})? per )(t|m2|L|ha)(?![\w/])/g;

/** The sentence in US units, with as many significant digits as it had. */
export function turned(text: string): string {
  const priced = text.replace(PRICE, (_, price: string, per: string, unit: string) => {
    const [, dimension, base, us] = TURNED_UNITS.find(([written]) => written === unit)!;
    return `${rounded(Number(price.replaceAll(",", "")) / inDisplayUnit(toSI(1, base, dimension), dimension, "us"), digitsOf(price))}${per}${us}`;
  });
  return priced.replace(QUANTITY, (_, first: string, range: string | undefined, second: string | undefined, unit: string) => {
    const [, dimension, base, us] = TURNED_UNITS.find(([written]) => written === unit)!;
    const figureIn = (figure: string) => turn(figure, dimension, base);
    return `${figureIn(first)}${range === undefined ? "" : range.replace(second!, figureIn(second!))} ${us}`;
  });
}

/** A figure in the reader's unit. */
const turn = (figure: string, dimension: DimensionName, base: string): string =>
  rounded(inDisplayUnit(toSI(Number(figure.replaceAll(",", "")), base, dimension), dimension, "us"), digitsOf(figure));

/** Significant digits of a written figure, two at least. */
const digitsOf = (figure: string): number => Math.max(2, figure.replaceAll(",", "").replace(/^0*\.?0*/, "").replace(".", "").length);

/** So many significant digits; whole numbers stay whole where they are large. */
function rounded(value: number, digits: number): string {
  if (value === 0) return "0";
  // Of the rounded figure: 0.998 to two digits is 1.0.
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(Number(value.toPrecision(digits))))));
  return formatNumber(value, Math.min(decimals, 3));
}
