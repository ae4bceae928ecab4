/** Which column is what: by what was said, else by the words of its head. */
import { clipped, listed } from "../../scenario/words.ts";
import type { Row } from "./csv.ts";
import { unitNamed } from "./numbers.ts";
import type { MassUnit, Question } from "./questions.ts";

/** What a column can be. `time` is the weighing of the full truck, `out` that of the empty one; either may hold the date too. */
export const COLUMNS = ["ticket", "date", "time", "out", "gross", "tare", "storedTare", "net", "truck", "owner", "field"] as const;
export type ColumnName = (typeof COLUMNS)[number];

/** Heads in plain words, as scales and their users write them. */
const HEADS: Readonly<Record<ColumnName, readonly string[]>> = {
  ticket: ["ticket", "ticket no", "ticket number", "ticket id", "no", "number", "slip", "slip no", "weighing no", "docket", "docket no", "receipt"],
  date: ["date", "day", "date in", "weighing date"],
  time: ["time", "time in", "in", "in time", "arrival", "arrived", "date time", "datetime", "date and time", "timestamp", "weighed", "weighed at", "weighed in", "first weighing", "gross time"],
  out: ["out", "time out", "out time", "departure", "left", "weighed out", "second weighing", "tare time"],
  gross: ["gross", "gross weight", "gross mass", "full", "weight full", "loaded weight"],
  tare: ["tare", "tare weight", "tare mass", "empty weight", "weight empty"],
  storedTare: ["stored tare", "tare stored", "preset tare", "tare from memory", "tare memory", "fixed tare"],
  net: ["net", "net weight", "net mass", "load", "payload", "weight", "mass"],
  truck: ["truck", "vehicle", "truck no", "truck id", "truck name", "vehicle no", "vehicle id", "plate", "registration", "trailer", "licence plate", "license plate"],
  owner: ["owner", "customer", "farm", "farmer", "grower", "supplier", "account", "client"],
  field: ["field", "field name", "parcel", "plot", "origin", "source", "from field"],
};

/** Columns that hold a mass. */
export const MASSES = ["gross", "tare", "storedTare", "net"] as const satisfies readonly ColumnName[];

export interface Column {
  readonly name: ColumnName;
  /** its place in the row, from 0 */ readonly at: number;
  readonly head: string;
  readonly because: "as said" | "by its head";
  /** the unit that the head names */ readonly unit: MassUnit | null;
}

export type ColumnWishes = Partial<Readonly<Record<ColumnName, string>>>;

/** Reads `gross=Gross kg, time=Time` into wishes. @throws RangeError in the user's words */
export function columnWishes(text: string): ColumnWishes {
  const wishes: Partial<Record<ColumnName, string>> = {};
  for (const pair of text.split(",")) {
    const [name = "", ...head] = pair.split("=");
    if (head.length === 0) throw new RangeError(`Columns are said as name=head, several with commas between, as in "gross=Gross kg,time=Time"; "${clipped(pair.trim())}" is not.`);
    wishes[columnNamed(name.trim())] = head.join("=").trim();
  }
  return wishes;
}

function columnNamed(name: string): ColumnName {
  const found = COLUMNS.find((column) => column.toLowerCase() === name.toLowerCase());
  if (found === undefined) throw new RangeError(`"${clipped(name)}" is no column of a ticket; they are ${listed(COLUMNS, "and")}.`);
  return found;
}

/** A head without its unit, marks and doubled blanks. */
function plainHead(head: string): { readonly words: string; readonly unit: MassUnit | null } {
  const words = head.toLowerCase().replace(/[()[\]{}.,:;/_#-]+/gu, " ").trim().split(/\s+/u);
  const last = words.at(-1) ?? "";
  const unit = words.length > 1 ? unitNamed(last) : null;
  return { words: (unit === null ? words : words.slice(0, -1)).join(" "), unit };
}

export interface Mapping {
  /** row of the heads */ readonly headRow: number;
  readonly heads: readonly string[];
  readonly columns: readonly Column[];
  readonly ignored: readonly string[];
}

/** Rows among which the heads are looked for: exports begin with a title, an address, a date of printing. */
const HEADS_WITHIN = 20;

/** Finds the row of the heads and what each column is, or what must be asked. */
export function mapped(rows: readonly Row[], wishes: ColumnWishes = {}): Mapping | { readonly question: Question } {
  const candidates = rows.slice(0, HEADS_WITHIN).map((row) => ({ row, columns: columnsOf(row.cells, wishes) }));
  const best = candidates.reduce<(typeof candidates)[number] | null>((top, each) => (top === null || each.columns.length > top.columns.length ? each : top), null);
  const heads = best?.row.cells.map((cell) => cell.trim()) ?? [];
  const ask = (detail: string) => ({ question: { about: "columns" as const, answers: heads.filter((head) => head !== "").map(clipped), detail } });
  if (!best || best.columns.length < 2) return ask(`Which column is what? No row of heads was found in the first ${HEADS_WITHIN} rows: at least a time and a net mass, or gross with tare, are needed.`);
  const { columns } = best;
  for (const name of COLUMNS) {
    const wish = wishes[name];
    if (wish !== undefined && !columns.some((column) => column.name === name)) return ask(`There is no column "${clipped(wish)}" for ${name}; the heads in row ${best.row.row} are ${listed(heads.map((head) => `"${clipped(head)}"`), "and")}.`);
    const several = columns.filter((column) => column.name === name);
    if (several.length > 1) return ask(`Which column is ${name}? ${listed(several.map(({ head, at }) => `"${clipped(head)}" (column ${at + 1})`), "and")} could be; say it as ${name}=head.`);
  }
  const has = (name: ColumnName) => columns.some((column) => column.name === name);
  if (!has("time")) return ask(`Which column holds the time of weighing? The heads in row ${best.row.row} are ${listed(heads.map((head) => `"${clipped(head)}"`), "and")}; say it as time=head.`);
  if (!has("net") && !(has("gross") && (has("tare") || has("storedTare")))) return ask("Which columns hold the masses? A net mass, or gross with tare or stored tare, is needed; say it as net=head or gross=head,tare=head.");
  return { headRow: best.row.row, heads, columns, ignored: heads.filter((head, at) => head !== "" && !columns.some((column) => column.at === at)) };
}

function columnsOf(cells: readonly string[], wishes: ColumnWishes): Column[] {
  const heads = cells.map((cell) => cell.trim());
  const said: Column[] = COLUMNS.flatMap((name) => {
    const at = wishes[name] === undefined ? -1 : heads.findIndex((head) => head.toLowerCase() === wishes[name]!.toLowerCase());
    return at < 0 ? [] : [{ name, at, head: heads[at]!, because: "as said" as const, unit: plainHead(heads[at]!).unit }];
  });
  const found = heads.flatMap((head, at): Column[] => {
    if (said.some((column) => column.at === at)) return [];
    const { words, unit } = plainHead(head);
    const name = COLUMNS.find((column) => HEADS[column].includes(words));
    return name === undefined || wishes[name] !== undefined ? [] : [{ name, at, head, because: "by its head", unit }];
  });
  return [...said, ...found].sort((a, b) => a.at - b.at);
}
