/** The text of a file of weigh tickets, as scales export it, cut into rows of cells. Nothing is dropped: what cannot be cut is told with its row. */
import { counted } from "../../findings/figure.ts";
import Papa from "papaparse";
import { headingOf, WITHIN } from "./headings.ts";

/** What may stand between two cells. */
const DELIMITERS = [",", ";", "\t"] as const;
export type Delimiter = (typeof DELIMITERS)[number];
export const DELIMITER_WORDS: Readonly<Record<Delimiter, string>> = { ",": "comma", ";": "semicolon", "\t": "tab" };

/** Rows that one file may have (assumption of this project): ten times the loads of a large harvest season. */
export const MOST_ROWS = 20_000;
/** Characters of such a file (assumption of this project). */
export const MOST_TEXT = 4_000_000;

/** One row of the file that is not blank. */
export interface Row {
  /** counted from 1, as a spreadsheet counts it */ readonly row: number;
  readonly cells: readonly string[];
  /** why its cells cannot be trusted, as a verb; null where they can */ readonly broken: string | null;
}

export interface Sheet {
  readonly delimiter: Delimiter;
  /** every row that is not blank, whatever stands above the heads included */ readonly rows: readonly Row[];
}

/** Cuts the text. @throws RangeError in the user's words when it is too large. The delimiter is the one that sets the most known headings apart; of equals the one that cuts the most rows into the same number of cells, then the one that makes more of them. */
export function readSheet(text: string): Sheet {
  if (text.length > MOST_TEXT) throw new RangeError(`The tickets are ${counted(text.length)} characters; up to ${counted(MOST_TEXT)} are read.`);
  const plain = text.startsWith("\ufeff") ? text.slice(1) : text;
  const cuts = DELIMITERS.map((delimiter) => {
    const rows = cutBy(plain, delimiter);
    return { delimiter, rows, headed: headed(rows), ...agreement(rows) };
  });
  const { delimiter, rows } = cuts.reduce((best, cut) => ((cut.headed - best.headed || cut.agreeing - best.agreeing || cut.cells - best.cells) > 0 ? cut : best));
  if (rows.length > MOST_ROWS) throw new RangeError(`The file has ${counted(rows.length)} rows; up to ${counted(MOST_ROWS)} are read.`);
  return { delimiter, rows };
}

const isBlank = (cells: readonly string[]) => cells.length === 1 && cells[0]!.trim() === "";

/** One line, one ticket: a stray quotation mark would otherwise swallow the rows up to the next one. */
const cutBy = (text: string, delimiter: Delimiter): Row[] =>
  text.split(/\r\n|\n|\r/u).map((line, i) => ({ row: i + 1, ...cutLine(line, delimiter) })).filter(({ cells }) => !isBlank(cells));

function cutLine(line: string, delimiter: Delimiter): Omit<Row, "row"> {
  if (!line.includes("\"")) return { cells: line.split(delimiter), broken: null };
  const { data, errors } = Papa.parse(line, { delimiter, header: false, skipEmptyLines: false });
  if (errors.some(({ type }) => type === "Quotes")) return { cells: line.split(delimiter), broken: "has a quotation mark that is not closed" };
  return { cells: data[0] ?? [""], broken: null };
}

/** Known headings in the row that has the most of them, two at the least: one may stand in a title. */
function headed(rows: readonly Row[]): number {
  const most = Math.max(0, ...rows.slice(0, WITHIN).map(({ cells }) => cells.filter((cell) => headingOf(cell).name !== null).length));
  return most > 1 ? most : 0;
}

/** The number of cells, two or more, that most rows have, and how many rows have it. */
function agreement(rows: readonly Row[]): { readonly cells: number; readonly agreeing: number } {
  const counts = new Map<number, number>();
  for (const { cells } of rows) if (cells.length > 1) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1);
  return [...counts].reduce((best, [cells, agreeing]) => (agreeing > best.agreeing || (agreeing === best.agreeing && cells > best.cells) ? { cells, agreeing } : best), { cells: 0, agreeing: 0 });
}
