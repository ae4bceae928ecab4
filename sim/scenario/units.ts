/**
 * Quantities as people in the trade write them, `14 ha`, `35000 lb`, `18 ton/acre`, turned into strict SI and back.
 * The single units come from the library `convert`; here stands only which of them the trade uses for what, and
 * how they combine. `t` is the metric tonne, `ton` the US short ton, `gal` the US liquid gallon.
 */
import { convert } from "convert";
import { clipped, listed } from "./words.ts";

const metre = { mm: 1e-3, cm: 1e-2, m: 1, km: 1e3, in: convert(1, "inch").to("meters"), ft: convert(1, "foot").to("meters"), mi: convert(1, "mile").to("meters") };
const kilogram = { kg: 1, t: convert(1, "tonne").to("kg"), lb: convert(1, "pound").to("kg"), ton: convert(1, "short ton").to("kg") };
const second = { s: 1, min: convert(1, "minute").to("seconds"), h: convert(1, "hour").to("seconds"), day: convert(1, "day").to("seconds") };
const squareMetre = { m2: 1, ha: convert(1, "hectare").to("square meters"), acre: convert(1, "acre").to("square meters") };
const cubicMetre = { m3: 1, L: convert(1, "liter").to("cubic meters"), ft3: metre.ft ** 3, gal: convert(1, "US liquid gallon").to("cubic meters") };

/** m/s2, standard gravity, a defined constant: a pound-force is a pound times this. The library rounds psi and hp; these do not. */
const GRAVITY = 9.80665;
const newton = { lbf: kilogram.lb * GRAVITY };
const kilopascal = { kPa: 1, psi: newton.lbf / metre.in ** 2 / 1000, "lb/ft2": newton.lbf / metre.ft ** 2 / 1000 };
const kilowatt = { kW: 1, hp: 550 * newton.lbf * metre.ft / 1000 };

type Factors = Readonly<Record<string, number>>;

/**
 * What can be measured: the factor of every unit allowed in a file, the unit each reader sees, and the digits
 * after the point that deserve to be shown. Metric comes first in each list of units.
 */
interface Dimension {
  /** in a sentence: "an area" */ readonly called: string;
  readonly factors: Factors;
  readonly metric: string;
  readonly us: string;
  readonly digits: number;
}

const length = { mm: metre.mm, cm: metre.cm, m: metre.m, km: metre.km, in: metre.in, ft: metre.ft, mi: metre.mi };
const price = (per: string): string => `per ${per}`;
const prices = (units: Factors, names: readonly string[], base: number): Factors =>
  Object.fromEntries(names.map((name) => [price(name), base / (units[name] ?? NaN)]));

/** Every dimension of a scenario and of its findings; the SI unit behind each is named in types.ts. Money keeps the unit people quote it in. */
export const DIMENSIONS = {
  area: { called: "an area", factors: squareMetre, metric: "ha", us: "acre", digits: 1 },
  surface: { called: "a surface", factors: { ...squareMetre, ft2: metre.ft ** 2 }, metric: "m2", us: "ft2", digits: 0 },
  length: { called: "a length", factors: length, metric: "m", us: "ft", digits: 1 },
  distance: { called: "a distance", factors: length, metric: "km", us: "mi", digits: 1 },
  thickness: { called: "a thickness", factors: length, metric: "cm", us: "in", digits: 0 },
  chop: { called: "a chop length", factors: length, metric: "mm", us: "in", digits: 1 },
  mass: { called: "a mass", factors: kilogram, metric: "t", us: "ton", digits: 1 },
  machineMass: { called: "a mass", factors: kilogram, metric: "t", us: "lb", digits: 1 },
  yield: {
    called: "a yield",
    factors: { "kg/m2": 1, "t/ha": kilogram.t / squareMetre.ha, "kg/ha": 1 / squareMetre.ha, "ton/acre": kilogram.ton / squareMetre.acre, "lb/acre": kilogram.lb / squareMetre.acre },
    metric: "t/ha", us: "ton/acre", digits: 1,
  },
  flow: {
    called: "a rate",
    factors: { "kg/s": 1, "t/h": kilogram.t / second.h, "kg/h": 1 / second.h, "ton/h": kilogram.ton / second.h, "lb/h": kilogram.lb / second.h },
    metric: "t/h", us: "ton/h", digits: 0,
  },
  coverPace: {
    called: "a pace of covering",
    factors: { "m2/s": 1, "m2/h": 1 / second.h, "ft2/h": metre.ft ** 2 / second.h },
    metric: "m2/h", us: "ft2/h", digits: 0,
  },
  intake: { called: "an intake", factors: { "kg/day": 1, "lb/day": kilogram.lb }, metric: "kg/day", us: "lb/day", digits: 1 },
  speed: { called: "a speed", factors: { "m/s": 1, "km/h": metre.km / second.h, "mi/h": metre.mi / second.h, mph: metre.mi / second.h }, metric: "km/h", us: "mph", digits: 1 },
  time: { called: "a time", factors: { s: second.s, min: second.min, h: second.h }, metric: "min", us: "min", digits: 0 },
  hours: { called: "a time", factors: { s: second.s, min: second.min, h: second.h, day: second.day }, metric: "h", us: "h", digits: 1 },
  years: { called: "a number of years", factors: { years: 1, year: 1 }, metric: "years", us: "years", digits: 0 },
  density: { called: "a density", factors: { "kg/m3": 1, "t/m3": kilogram.t, "lb/ft3": kilogram.lb / cubicMetre.ft3 }, metric: "kg/m3", us: "lb/ft3", digits: 0 },
  volume: { called: "a volume", factors: { m3: 1, L: cubicMetre.L, ft3: cubicMetre.ft3, gal: cubicMetre.gal }, metric: "m3", us: "ft3", digits: 0 },
  fluid: { called: "a volume", factors: { m3: 1, L: cubicMetre.L, gal: cubicMetre.gal }, metric: "L", us: "gal", digits: 0 },
  power: { called: "a power", factors: kilowatt, metric: "kW", us: "hp", digits: 0 },
  pressure: { called: "a pressure", factors: kilopascal, metric: "kPa", us: "psi", digits: 1 },
  /** kept in degrees, clockwise from north */
  bearing: { called: "a bearing", factors: { deg: 1 }, metric: "deg", us: "deg", digits: 0 },
  share: { called: "a share", factors: { "%": 0.01 }, metric: "%", us: "%", digits: 0 },
  drying: { called: "a rate of drying", factors: { "% per day": 0.01 / second.day, "% per h": 0.01 / second.h }, metric: "% per day", us: "% per day", digits: 2 },
  packingTime: {
    called: "a packing time per mass",
    factors: { "s/kg": 1, "min/t": second.min / kilogram.t, "min/ton": second.min / kilogram.ton },
    metric: "min/t", us: "min/ton", digits: 2,
  },
  perHour: { called: "money per hour", factors: prices(second, ["h"], second.h), metric: "per h", us: "per h", digits: 2 },
  perTonne: { called: "money per tonne or ton", factors: prices(kilogram, ["t", "ton"], kilogram.t), metric: "per t", us: "per ton", digits: 2 },
  perHectare: { called: "money per area", factors: prices(squareMetre, ["ha", "acre"], squareMetre.ha), metric: "per ha", us: "per acre", digits: 2 },
  perSurface: { called: "money per surface", factors: prices({ m2: 1, ft2: metre.ft ** 2 }, ["m2", "ft2"], 1), metric: "per m2", us: "per ft2", digits: 2 },
  perLitre: { called: "money per volume", factors: prices(cubicMetre, ["L", "gal"], cubicMetre.L), metric: "per L", us: "per gal", digits: 2 },
} as const satisfies Record<string, Dimension>;

export type DimensionName = keyof typeof DIMENSIONS;
export type UnitSystem = "metric" | "us";

/** Significant digits that survive a conversion, so that a US file and its metric twin come out as the same bytes. */
const SIGNIFICANT = 12;

/** Rounds to twelve significant digits; see `SIGNIFICANT`. */
export function settled(value: number): number {
  return Number(value.toPrecision(SIGNIFICANT)) + 0;
}

/** The units a file may use for this dimension, metric first. */
export function unitsOf(dimension: DimensionName): readonly string[] {
  return Object.keys(DIMENSIONS[dimension].factors);
}

/** SI value of one unit, or undefined where the dimension does not know it. */
function factorOf(dimension: DimensionName, unit: string): number | undefined {
  const factors: Factors = DIMENSIONS[dimension].factors;
  return Object.hasOwn(factors, unit) ? factors[unit] : undefined;
}

const WRITTEN = /^\s*([+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*(.*?)\s*$/su;

/** The pattern of JSON Schema for a quantity of this dimension. */
export function patternOf(dimension: DimensionName): string {
  const units = unitsOf(dimension).map((unit) => unit.replaceAll(" ", "\\s+").replace("2", "[2²]").replace("3", "[3³]")).join("|");
  return `^\\s*[+-]?(\\d+(\\.\\d+)?|\\.\\d+)([eE][+-]?\\d{1,3})?\\s*(${units})\\s*$`;
}

export type Parsed = { readonly value: number } | { readonly wrong: string };

/**
 * Reads one quantity into SI (money: per hour, per tonne, per hectare, per litre).
 * `wrong` finishes the sentence "X is "14 kg": ..." and says which units would do.
 */
export function parse(text: string, dimension: DimensionName): Parsed {
  const { called } = DIMENSIONS[dimension];
  const would = `${called} takes ${listed(unitsOf(dimension))}`;
  const match = WRITTEN.exec(text);
  if (!match) return { wrong: `not a number with a unit; ${would}` };
  const amount = Number(match[1]);
  const unit = (match[2] ?? "").replaceAll("²", "2").replaceAll("³", "3").replace(/\s+/gu, " ");
  if (/^[,\d]/u.test(unit)) return { wrong: `write the number with a point for decimals and nothing between thousands; ${would}` };
  if (unit === "") return { wrong: `the unit is missing; ${would}` };
  const factor = factorOf(dimension, unit);
  if (factor === undefined) return { wrong: `${unitTrouble(unit)}; ${would}` };
  const value = settled(amount * factor);
  if (!Number.isFinite(value)) return { wrong: "the number is too large" };
  return { value };
}

/** Says whether a unit measures something else or is not known at all. */
function unitTrouble(unit: string): string {
  const other = (Object.keys(DIMENSIONS) as DimensionName[]).find((name) => factorOf(name, unit) !== undefined);
  if (other) return `${unit} is the unit of ${DIMENSIONS[other].called}`;
  return `${clipped(unit)} is no unit known here`;
}

/** SI value of an amount in a unit of the dimension. Throws a RangeError for a unit the dimension does not know. */
export function toSI(amount: number, unit: string, dimension: DimensionName): number {
  const factor = factorOf(dimension, unit);
  if (factor === undefined) throw new RangeError(`${unit} is no unit of ${dimension}; ${listed(unitsOf(dimension))} would do`);
  return amount * factor;
}

/** The unit a reader of this system sees, for the head of a table. */
export function displayUnit(dimension: DimensionName, system: UnitSystem): string {
  return DIMENSIONS[dimension][system];
}

/** The SI value as a plain number in the reader's unit. */
export function inDisplayUnit(value: number, dimension: DimensionName, system: UnitSystem): number {
  return value / toSI(1, displayUnit(dimension, system), dimension);
}

/** `17.2 ha`, `34 %`, `1,728 m3`: an SI value in words for the reader; `digits` after the point instead of the dimension's own. */
export function formatQuantity(value: number, dimension: DimensionName, system: UnitSystem, digits: number = DIMENSIONS[dimension].digits): string {
  const amount = inDisplayUnit(value, dimension, system);
  return `${formatNumber(amount, digits)} ${displayUnit(dimension, system)}`;
}

/** A number with thousands set apart and a fixed number of digits after the point; never "-0". */
export function formatNumber(amount: number, digits: number): string {
  if (!Number.isFinite(amount)) return "–";
  // Beyond this toFixed gives a power of ten.
  const text = Math.abs(amount) < 1e21 ? Math.abs(amount).toFixed(digits) : String(BigInt(Math.abs(amount)));
  const [whole = "0", part] = text.split(".");
  const grouped = whole.length <= 3 ? whole : whole.replace(/\B(?=(\d{3})+$)/gu, ",");
  const sign = amount < 0 && Number(text) !== 0 ? "-" : "";
  return `${sign}${grouped}${part === undefined ? "" : `.${part}`}`;
}
