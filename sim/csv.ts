/** Tables for spreadsheets: RFC 4180, with nothing in them that a spreadsheet would carry out. */

export type Cell = string | number | null;

/** Tells spreadsheets that the letters are UTF-8. */
const MARK = "\ufeff";

/**
 * A text that begins as a formula does would be reckoned by a spreadsheet, and could send what is in it elsewhere. An apostrophe in front keeps it
 * a text (after OWASP's "CSV Injection"); blanks before the sign do not stop every spreadsheet, nor do the wide signs of East Asian letters.
 */
const FORMULA = /^[\s\0]*[=+\-@\u{ff1d}\u{ff0b}\u{ff0d}\u{ff20}]|^[\t\r\n]/u;

function written(cell: Cell): string {
  if (cell === null) return "";
  if (typeof cell === "number") return Number.isFinite(cell) ? String(cell) : "";
  const safe = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n;\t]|^\s|\s$/.test(safe) ? `"${safe.replaceAll("\"", "\"\"")}"` : safe;
}

/** Heads and rows as one text. Numbers stay numbers, with a point. */
export const csv = (heads: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  MARK + [heads, ...rows].map((row) => row.map(written).join(",") + "\r\n").join("");
