/** What stands in one cell: a mass, a date, a time. Each is read one way only, the way that was settled for the whole file. */
import { dayOf as calendarDay } from "../../scenario/dates.ts";

export const DECIMALS = ["point", "comma"] as const;
export type Decimal = (typeof DECIMALS)[number];
export const DATE_ORDERS = ["dmy", "mdy", "ymd"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];
export const MASS_UNITS = ["kg", "t", "lb", "ton"] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

/** What a unit is called in a heading or behind a number. `ton` alone is not among them: some mean 2,000 lb by it and some 1,000 kg. */
const UNIT_WORDS: Readonly<Record<string, MassUnit>> = { kg: "kg", kgs: "kg", kilogram: "kg", kilograms: "kg", t: "t", tonne: "t", tonnes: "t", lb: "lb", lbs: "lb", pound: "lb", pounds: "lb" };

/** The unit that a word names, or null. */
export const unitNamed = (word: string): MassUnit | null => (Object.hasOwn(UNIT_WORDS, word.toLowerCase()) ? UNIT_WORDS[word.toLowerCase()]! : null);

const PLAIN = /^[+-]?\d+$/u;
const BY = {
  point: /^[+-]?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?$/u,
  comma: /^[+-]?(?:\d{1,3}(?:\.\d{3})+|\d+)(?:,\d+)?$/u,
} as const;

export interface Amount {
  readonly value: number;
  /** 1 for whole numbers, 0.01 for two digits after the mark */ readonly step: number;
  /** behind the number, or null */ readonly unit: string | null;
}

/** The number of a cell and what stands behind it; blanks and apostrophes between thousands are left out. */
function split(cell: string): { readonly digits: string; readonly unit: string | null } {
  const [, number = "", unit = ""] = /^([+-]?[\d.,'\u2019\s\u00a0\u202f]*\d)\s*(\p{L}+)?\.?$/u.exec(cell.trim()) ?? [];
  return { digits: number.replace(/(?<=\d)['\u2019\s\u00a0\u202f](?=\d{3}(?!\d))/gu, ""), unit: unit === "" ? null : unit };
}

/** Reads a number with this decimal mark; null when it is none. */
export function amountOf(cell: string, decimal: Decimal): Amount | null {
  const { digits, unit } = split(cell);
  if (!BY[decimal].test(digits)) return null;
  const [thousands, mark] = decimal === "point" ? [",", "."] : [".", ","];
  const plain = digits.replaceAll(thousands, "").replace(mark, ".");
  const value = Number(plain);
  return Number.isFinite(value) ? { value, step: 10 ** -(plain.split(".")[1]?.length ?? 0), unit } : null;
}

/** Which decimal marks a cell can be read with; both and alike for whole numbers. */
export function marksOf(cell: string): "either" | "open" | Decimal | null {
  const { digits } = split(cell);
  if (PLAIN.test(digits)) return "either";
  const point = BY.point.test(digits);
  const comma = BY.comma.test(digits);
  if (point && comma) return "open";
  return point ? "point" : comma ? "comma" : null;
}

const DATE = /^(\d{1,4})([-./])(\d{1,2})\2(\d{1,4})\.?/u;
const CLOCK = /^(\d{1,2})[:.](\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)?(?:\s*([ap])\.?m\.?)?(?:\s*Z|[+-]\d{2}:?\d{2})?$/iu;

/** The parts of a cell that may hold a date, a time of day, or both. */
export function momentParts(cell: string): { readonly date: string | null; readonly clock: string | null } {
  const text = cell.trim();
  const [date] = DATE.exec(text) ?? [];
  const rest = date === undefined ? text : text.slice(date.length).replace(/^[T\s,]+/u, "");
  return { date: date ?? null, clock: rest === "" ? null : rest };
}

/** Which orders of day, month and year a date can be read in. */
export const ordersOf = (date: string): DateOrder[] => DATE_ORDERS.filter((order) => dayOf(date, order) !== null);

/** Days since 1970-01-01 of a date read in this order, or null when there is no such day. Years of two digits are of this century. */
export function dayOf(date: string, order: DateOrder): number | null {
  const match = DATE.exec(date);
  if (match === null) return null;
  const parts = [match[1]!, match[3]!, match[4]!];
  const at = (letter: string) => parts[order.indexOf(letter)]!;
  const yearText = at("y");
  if ((yearText.length !== 4 && yearText.length !== 2) || at("m").length > 2 || at("d").length > 2) return null;
  const year = yearText.length === 2 ? 2000 + Number(yearText) : Number(yearText);
  const [month, day] = [Number(at("m")), Number(at("d"))];
  if (year < 1950 || year > 2150) return null;
  return calendarDay(`${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`);
}

/** Seconds after midnight of a time of day, or null. */
export function clockIn(text: string): number | null {
  const match = CLOCK.exec(text.trim());
  if (match === null) return null;
  const half = match[4]?.toLowerCase();
  const [hour, minute, second] = [Number(match[1]), Number(match[2]), Number(match[3] ?? 0)];
  if (minute > 59 || second > 59 || hour > (half ? 12 : 23) || (half && hour < 1)) return null;
  return ((half ? (hour % 12) + (half === "p" ? 12 : 0) : hour) * 60 + minute) * 60 + second;
}
