/** Numbers as scales write them: decimal point or comma, thousands set apart, a unit behind. */
import { clipped } from "../../scenario/words.ts";
import { DECIMALS, MASS_UNITS } from "./questions.ts";
import type { Decimal, MassUnit, Question } from "./questions.ts";

/** The words for each unit of mass; `t` is the metric tonne, `ton` the US short ton. */
const UNIT_WORDS: Readonly<Record<string, MassUnit>> = {
  kg: "kg", kgs: "kg", kilogram: "kg", kilograms: "kg", t: "t", tonne: "t", tonnes: "t", lb: "lb", lbs: "lb", pound: "lb", pounds: "lb", ton: "ton", tons: "ton",
};

/** The unit that a word names, or null. */
export const unitNamed = (word: string): MassUnit | null => {
  const key = word.trim().toLowerCase().replace(/\.$/u, "");
  return Object.hasOwn(UNIT_WORDS, key) ? UNIT_WORDS[key]! : null;
};

const WRITTEN = /^([+-]?)([\d.,' \u00a0\u202f\u2019]*\d)\s*([A-Za-z]+\.?)?$/u;

interface Written { readonly sign: number; readonly digits: string; readonly unit: MassUnit | null }

/** Sign, digits with their marks, unit; null where it is no number at all. */
function written(cell: string): Written | null {
  const match = WRITTEN.exec(cell.trim());
  if (!match) return null;
  const unit = match[3] === undefined ? null : unitNamed(match[3]);
  if (match[3] !== undefined && unit === null) return null;
  return { sign: match[1] === "-" ? -1 : 1, digits: match[2]!, unit };
}

/** What the marks of one number say of the decimal mark: it must be this, or nothing can be told; `doubtful` where it could be either and matters. */
function evidence(digits: string): Decimal | "doubtful" | null {
  const marks = [...digits.matchAll(/[.,]/gu)];
  if (marks.length === 0) return null;
  const last = marks.at(-1)!;
  const named = (mark: string): Decimal => (mark === "." ? "point" : "comma");
  const other = (mark: string): Decimal => (mark === "." ? "comma" : "point");
  if (new Set(marks.map(([mark]) => mark)).size > 1) return named(last[0]);
  if (marks.length > 1) return other(last[0]);
  const [before, after] = [digits.slice(0, last.index), digits.slice(last.index + 1)];
  // 12,345 may be either; 0,345 and 1234,567 and 12,5 are decimals.
  return after.length === 3 && /^[1-9]\d{0,2}$/u.test(before.replace(/[' \u00a0\u202f\u2019]/gu, "")) ? "doubtful" : named(last[0]);
}

/** One cell with its row, for saying where something was read. */
export interface Cell { readonly row: number; readonly text: string }

export interface DecimalFound { readonly decimal: Decimal | null; readonly because: string; readonly question?: Question }

/** The decimal mark of the masses: as wished, or proved by some number of the file, or not needed; else a question. */
export function decimalOf(cells: readonly Cell[], wish?: Decimal): DecimalFound {
  if (wish !== undefined) return { decimal: wish, because: "as said" };
  const first: Partial<Record<Decimal | "doubtful", Cell>> = {};
  for (const cell of cells) {
    const number = written(cell.text);
    const says = number && evidence(number.digits);
    if (says) first[says] ??= cell;
  }
  const at = ({ row, text }: Cell) => `"${clipped(text.trim())}" in row ${row}`;
  const ask = (detail: string): DecimalFound => ({ decimal: null, because: "", question: { about: "decimal", answers: DECIMALS, detail } });
  if (first.point && first.comma) return ask(`Decimal point or decimal comma? ${at(first.point)} speaks for the point, ${at(first.comma)} for the comma.`);
  const proof = first.point ?? first.comma;
  if (proof) return { decimal: first.point ? "point" : "comma", because: `${at(proof)} cannot be read otherwise` };
  if (first.doubtful) return ask(`Decimal point or decimal comma? ${at(first.doubtful)} may be thousands or decimals, and no other number of the file tells.`);
  return { decimal: "point", because: "no number has any mark in it" };
}

export type Mass = { readonly kg: number } | { readonly wrong: string } | { readonly unitOpen: true };

/** kg in one unit; the pound and the short ton are defined by it. */
export const KG: Readonly<Record<MassUnit, number>> = { kg: 1, t: 1000, lb: 0.45359237, ton: 907.18474 };

/** Reads one mass, kg. The unit behind the number goes before that of the column. */
export function massOf(text: string, decimal: Decimal, unit: MassUnit | null): Mass {
  const number = written(text);
  const said = `"${clipped(text.trim())}"`;
  if (!number) return { wrong: `${said} is no mass` };
  const plain = number.digits.replace(/[' \u00a0\u202f\u2019]/gu, "");
  const mark = decimal === "point" ? "." : ",";
  const apart = decimal === "point" ? "," : ".";
  const [whole = "", part, ...rest] = plain.split(mark);
  const sound = rest.length === 0 && (part === undefined || /^\d+$/u.test(part)) && (/^\d*$/u.test(whole) || (apart === "," ? /^\d{1,3}(,\d{3})+$/u : /^\d{1,3}(\.\d{3})+$/u).test(whole));
  if (!sound) return { wrong: `${said} is no number with a decimal ${decimal}` };
  const used = number.unit ?? unit;
  if (used === null) return { unitOpen: true };
  return { kg: number.sign * Number(`${whole.replaceAll(apart, "")}.${part ?? "0"}`) * KG[used] };
}

/** The question for the unit. */
export const unitQuestion = (cell: Cell): Question => ({
  about: "unit", answers: MASS_UNITS, detail: `Which unit are the masses in: ${MASS_UNITS.join(", ")}? Neither the heads nor "${clipped(cell.text.trim())}" in row ${cell.row} say it (t is the metric tonne, ton the US short ton).`,
});
