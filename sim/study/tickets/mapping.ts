/** Which column is what and how its cells are read: by what was said, else by the words of the heading and by what the cells prove, else it is asked. */
import { clipped, listed } from "../../scenario/words.ts";
import { DATE_ORDERS, DECIMALS, MASS_UNITS, marksOf, momentParts, ordersOf, type DateOrder, type Decimal, type MassUnit } from "./cells.ts";
import { DELIMITER_WORDS, type Row, type Sheet } from "./csv.ts";
import { COLUMNS, headingOf, WITHIN, type ColumnName } from "./headings.ts";

const MASSES = ["gross", "tare", "storedTare", "net"] as const satisfies readonly ColumnName[];

/** What can be said beforehand, and is asked where the file leaves it open. */
export interface Answers {
  /** heading by column, or "column 3" where its heading does not tell it from others; empty: no column is that */ readonly columns?: Partial<Readonly<Record<ColumnName, string>>>;
  readonly decimal?: Decimal;
  readonly dates?: DateOrder;
  readonly unit?: MassUnit;
}

export const ASKED = ["columns", "decimal", "dates", "unit"] as const satisfies readonly (keyof Answers)[];

/** One question that the file leaves open. */
export interface Question {
  readonly about: (typeof ASKED)[number];
  /** what is open, where, and which answers there are */ readonly sentence: string;
  readonly answers: readonly string[];
}

/** How a file is read. */
export interface Mapping {
  readonly delimiter: string;
  /** row of the headings, from 1; 0 where none was found */ readonly headingRow: number;
  readonly heading: readonly string[];
  /** place in the row, from 0 */ readonly columns: Partial<Readonly<Record<ColumnName, number>>>;
  /** headings that nothing is read from */ readonly ignored: readonly string[];
  readonly decimal: Decimal;
  /** null without dates */ readonly dates: DateOrder | null;
  /** of masses without a unit behind them; null where each has one */ readonly unit: MassUnit | null;
  /** a sentence each: what was understood, and from what */ readonly understood: readonly string[];
}

export interface Mapped { readonly mapping: Mapping; readonly questions: readonly Question[]; /** under the heading */ readonly rows: readonly Row[] }

/** Reads `gross=Gross kg,time=Time` as given on a command line. @throws RangeError in the user's words */
export function columnsSaid(text: string): NonNullable<Answers["columns"]> {
  const said: Partial<Record<ColumnName, string>> = {};
  for (const pair of text.split(",")) {
    const [name = "", ...heading] = pair.split("=");
    if (heading.length === 0) throw new RangeError(`Columns are said as name=heading with commas between, as in "gross=Gross kg,time=Time"; "${clipped(pair.trim())}" is not.`);
    const column = COLUMNS.find((each) => each.toLowerCase() === name.trim().toLowerCase());
    if (column === undefined) throw new RangeError(`"${clipped(name.trim())}" is no column of a ticket; they are ${listed(COLUMNS, "and")}.`);
    said[column] = heading.join("=").trim();
  }
  return said;
}

/** Settles how the sheet is read, with every question that is open. */
export function mapColumns({ delimiter, rows }: Sheet, answers: Answers = {}): Mapped {
  const places = rows.slice(0, WITHIN).map((row) => ({ row, found: columnsOf(row.cells, answers) }));
  const widest = Math.max(0, ...places.map(({ row }) => filled(row)));
  const better = (each: (typeof places)[number], top: (typeof places)[number]) =>
    each.found.length > top.found.length || (each.found.length === top.found.length && isTitle(top.row, widest) && !isTitle(each.row, widest));
  const best = places.reduce<(typeof places)[number] | null>((top, each) => (top === null || better(each, top) ? each : top), null);
  const heading = best?.row.cells.map((cell) => cell.trim()) ?? [];
  const questions = best ? columnQuestions(best.found, heading, best.row.row, answers) : [noHeading()];
  const found = best?.found ?? [];
  const columns: Partial<Record<ColumnName, number>> = Object.fromEntries(found.map(({ name, at }) => [name, at]));
  const under = best ? rows.filter(({ row }) => row > best.row.row) : rows;
  // Only whole rows tell how numbers and dates are written.
  const whole = under.filter(({ cells, broken }) => broken === null && cells.length === heading.length);
  const cellsOf = (...names: readonly ColumnName[]): Said[] =>
    names.flatMap((name) => whole.flatMap(({ row, cells }) => (columns[name] === undefined || cells[columns[name]]!.trim() === "" ? [] : [{ row, text: cells[columns[name]]!.trim() }])));

  const masses = cellsOf(...MASSES);
  const decimal = decimalOf(masses, answers.decimal);
  const dates = datesOf(cellsOf("date", "time", "dateOut", "timeOut").flatMap(({ row, text }) => (momentParts(text).date === null ? [] : [{ row, text: momentParts(text).date! }])), answers.dates);
  const unit = unitOf(masses, found.filter(({ name }) => (MASSES as readonly string[]).includes(name)), heading, answers.unit);
  return {
    questions: [...questions, ...[decimal, dates, unit].flatMap(({ question }) => question ?? [])], rows: under,
    mapping: {
      delimiter: DELIMITER_WORDS[delimiter], headingRow: best?.row.row ?? 0, heading, columns, ignored: heading.filter((head, at) => head !== "" && !found.some((column) => column.at === at)),
      decimal: decimal.is ?? "point", dates: dates.is, unit: unit.is,
      understood: [
        `Cells are set apart by ${DELIMITER_WORDS[delimiter]}; the headings stand in row ${best?.row.row ?? 0}.`,
        ...found.map(({ name, at, said }) => `${name}: column ${at + 1}, "${clipped(heading[at]!)}"${said ? ", as said" : ""}.`),
        ...[decimal, dates, unit].flatMap(({ words }) => (words === "" ? [] : [words])),
      ],
    },
  };
}

const filled = ({ cells }: Row): number => cells.filter((cell) => cell.trim() !== "").length;
/** Stands above the headings: under half of what the fullest row has (assumption of this project). */
const isTitle = (row: Row, widest: number): boolean => 2 * filled(row) < widest;

interface Column { readonly name: ColumnName; readonly at: number; readonly said: boolean; readonly unit: MassUnit | null; readonly tons: boolean }

function columnsOf(cells: readonly string[], { columns: wishes = {} }: Answers): Column[] {
  const heads = cells.map((cell) => cell.trim());
  const said = COLUMNS.flatMap((name): Column[] => {
    const wish = wishes[name]?.trim().toLowerCase();
    const at = wish === undefined || wish === "" ? -1 : placeOf(wish, heads);
    return at < 0 ? [] : [{ ...headingOf(heads[at]!), name, at, said: true }];
  });
  const found = heads.flatMap((head, at): Column[] => {
    const { name, ...units } = headingOf(head);
    return name === null || wishes[name] !== undefined || said.some((column) => column.at === at) ? [] : [{ name, at, said: false, ...units }];
  });
  return [...said, ...found].sort((a, b) => a.at - b.at);
}

/** Place of the column that has this heading, else of the one that is called by its number and has a heading at all. */
function placeOf(wish: string, heads: readonly string[]): number {
  const headed = heads.findIndex((head) => head.toLowerCase() === wish);
  const place = Number(/^column (\d{1,4})$/u.exec(wish)?.[1] ?? 0) - 1;
  return headed >= 0 ? headed : heads[place] ? place : -1;
}

const noHeading = (): Question => ({ about: "columns", answers: [], sentence: "The file has no rows: a row of headings and a row for each load would do." });

function columnQuestions(found: readonly Column[], heading: readonly string[], row: number, { columns: wishes = {} }: Answers): Question[] {
  const heads = heading.filter((head) => head !== "").map((head) => `"${clipped(head)}"`);
  const ask = (sentence: string): Question => ({ about: "columns", answers: heading.filter((head) => head !== "").map(clipped), sentence });
  const questions: Question[] = [];
  const all = (name: ColumnName) => found.filter((column) => column.name === name);
  for (const name of COLUMNS) {
    if (wishes[name] !== undefined && wishes[name].trim() !== "" && all(name).length === 0) questions.push(ask(`There is no column "${clipped(wishes[name])}" for ${name}; row ${row} has ${listed(heads, "and")}.`));
    else if (all(name).length > 1) questions.push(ask(`Which column is ${name}? ${listed(all(name).map(({ at }) => `"${clipped(heading[at]!)}" (column ${at + 1})`))} could be; say it as ${name}=heading.`));
  }
  if (questions.length > 0) return questions;
  if (all("time").length === 0) questions.push(ask(`Which column holds the time of weighing? Row ${row}, taken for the headings, has ${listed(heads, "and")}; say it as time=heading.`));
  if (all("net").length === 0 && (all("gross").length === 0 || all("tare").length + all("storedTare").length === 0)) {
    questions.push(ask(`Which columns hold the masses? A net mass, or gross with tare or stored tare, is needed; row ${row}, taken for the headings, has ${listed(heads, "and")}.`));
  }
  return questions;
}

/** A cell with its row. */
interface Said { readonly row: number; readonly text: string }
interface Settled<T> { readonly is: T | null; readonly words: string; readonly question?: Question }
const shown = ({ row, text }: Said) => `"${clipped(text)}" in row ${row}`;

function decimalOf(masses: readonly Said[], said?: Decimal): Settled<Decimal> {
  if (said !== undefined) return { is: said, words: `Decimal ${said}, as said.` };
  const first = (mark: ReturnType<typeof marksOf>) => masses.find(({ text }) => marksOf(text) === mark);
  const [point, comma, open] = [first("point"), first("comma"), first("open")];
  const ask = (sentence: string): Settled<Decimal> => ({ is: null, words: "", question: { about: "decimal", answers: DECIMALS, sentence } });
  if (point && comma) return ask(`Decimal point or decimal comma? ${shown(point)} can only have a point and ${shown(comma)} only a comma.`);
  const proof = point ?? comma;
  if (proof) return { is: point ? "point" : "comma", words: `Decimal ${point ? "point" : "comma"}: ${shown(proof)} cannot be read otherwise.` };
  if (open) return ask(`Decimal point or decimal comma? ${shown(open)} can be read with either, and so can every other mass.`);
  return { is: "point", words: masses.length > 0 ? "No mass has a decimal mark." : "" };
}

function datesOf(dates: readonly Said[], said?: DateOrder): Settled<DateOrder> {
  if (dates.length === 0) return { is: null, words: "There are no dates: a time that falls by more than half a day is the next day's." };
  if (said !== undefined) return { is: said, words: `Dates as ${said}, as said.` };
  const sound = dates.map((date) => ({ ...date, orders: ordersOf(date.text) })).filter(({ orders }) => orders.length > 0);
  const fitting = DATE_ORDERS.filter((order) => sound.every(({ orders }) => orders.includes(order)));
  const proof = sound.find(({ orders }) => orders.length === 1) ?? sound[0] ?? dates[0]!;
  if (fitting.length === 1) return { is: fitting[0]!, words: `Dates as ${fitting[0]!}: ${shown(proof)} cannot be read otherwise.` };
  const answers = fitting.length === 0 ? DATE_ORDERS : fitting;
  return { is: null, words: "", question: {
    about: "dates", answers,
    sentence: `In which order are dates written, ${listed(answers)} (d day, m month, y year)? ${fitting.length === 0 ? `None fits all of them; ${shown(proof)} is one` : `${shown(proof)} can be read in each, and so can all others`}.`,
  } };
}

function unitOf(masses: readonly Said[], columns: readonly Column[], heading: readonly string[], said?: MassUnit): Settled<MassUnit> {
  if (said !== undefined) return { is: said, words: `Masses in ${said}, as said.` };
  const ask = (sentence: string): Settled<MassUnit> => ({ is: null, words: "", question: { about: "unit", answers: MASS_UNITS, sentence: `${sentence} Which unit is it, ${listed(MASS_UNITS)}? (t is 1,000 kg, ton 2,000 lb.)` } });
  const headed = [...new Set(columns.map(({ unit }) => unit))];
  const bare = masses.find(({ text }) => !/\p{L}\.?$/u.test(text));
  const ton = masses.find(({ text }) => /\btons?\.?$/iu.test(text));
  if (ton) return ask(`The masses are in tons, ${shown(ton)}.`);
  const inTons = columns.find(({ tons }) => tons);
  if (inTons && bare) return ask(`The masses are in tons, as "${clipped(heading[inTons.at]!)}" says.`);
  const [unit] = headed.filter((each) => each !== null);
  if (headed.length > 1 && bare) return ask("The headings name no unit for some of the masses, or not the same for all.");
  if (unit !== undefined) return { is: unit, words: `Masses in ${unit}, as the headings say.` };
  if (!bare) return { is: null, words: masses.length > 0 ? "Each mass has its unit." : "" };
  return ask(`No heading names the unit of the masses, nor does ${shown(bare)}.`);
}
