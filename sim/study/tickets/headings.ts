/** The words by which a scale heads its columns. */
import { unitNamed, type MassUnit } from "./cells.ts";

/** What a column can be. `time` is the weighing of the full truck, `timeOut` when it left empty; either may hold its date too. */
export const COLUMNS = ["ticket", "date", "time", "dateOut", "timeOut", "gross", "tare", "storedTare", "net", "truck", "owner", "field", "storage"] as const;
export type ColumnName = (typeof COLUMNS)[number];

/** Headings in plain words, without marks, unit and capitals. */
const HEADINGS: Readonly<Record<ColumnName, readonly string[]>> = {
  ticket: ["ticket", "ticket no", "ticket number", "ticket id", "no", "number", "slip", "slip no", "weighing no", "docket", "docket no", "receipt"],
  date: ["date", "day", "date in", "weighing date"],
  time: ["time", "time in", "in", "in time", "arrival", "arrived", "date time", "datetime", "date and time", "timestamp", "weighed", "weighed at", "weighed in", "first weighing", "gross time"],
  dateOut: ["date out", "out date"],
  timeOut: ["out", "time out", "out time", "departure", "left", "left at", "weighed out", "second weighing", "tare time"],
  gross: ["gross", "gross weight", "gross mass", "full", "weight full", "loaded weight"],
  tare: ["tare", "tare weight", "tare mass", "empty", "empty weight", "weight empty"],
  storedTare: ["stored tare", "tare stored", "preset tare", "tare from memory", "tare memory", "fixed tare", "kept tare"],
  net: ["net", "net weight", "net mass", "load", "payload", "weight", "mass"],
  truck: ["truck", "vehicle", "truck no", "truck id", "truck name", "vehicle no", "vehicle id", "plate", "registration", "trailer", "licence plate", "license plate"],
  owner: ["owner", "customer", "farm", "farmer", "grower", "supplier", "account", "client"],
  field: ["field", "field name", "parcel", "plot", "origin", "source", "from field"],
  storage: ["storage", "bunker", "clamp", "pile", "pit", "destination", "to"],
};

/** Rows among which the headings are looked for: exports begin with a title, an address, a day of printing. */
export const WITHIN = 20;

/** What a heading calls its column, null when no word of it is known, and the unit behind it; `tons` where that is a word that some mean one unit by and some another. */
export function headingOf(head: string): { readonly name: ColumnName | null; readonly unit: MassUnit | null; readonly tons: boolean } {
  const words = head.toLowerCase().replace(/[()[\]{}.,:;/_#-]+/gu, " ").trim().split(/\s+/u);
  const unit = words.length > 1 ? unitNamed(words.at(-1)!) : null;
  const tons = words.length > 1 && /^tons?$/u.test(words.at(-1)!);
  const plain = (unit === null && !tons ? words : words.slice(0, -1)).join(" ");
  return { name: COLUMNS.find((column) => HEADINGS[column].includes(plain)) ?? null, unit, tons };
}
