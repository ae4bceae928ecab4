/** What a picture's table becomes when it is saved, and the names of saved files. */
import { csv, type Cell } from "../sim/csv.ts";

const FIGURE = /^-?\d{1,3}(,\d{3})*(\.\d+)?$|^-?\d+(\.\d+)?$/;

/** A table as the reader sees it, for a spreadsheet: figures as numbers, without the commas between thousands; everything else as it stands. */
export function tableText(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return csv(head, rows.map((row) => row.map((cell): Cell => (FIGURE.test(cell) ? Number(cell.replaceAll(",", "")) : cell.replaceAll("\u00a0", " ")))));
}

/** `Low Meadow, day one` and `Tipped and packed` as `low-meadow-day-one-tipped-and-packed.svg`; letters of any language stay. */
export function fileName(plan: string, picture: string, kind: string): string {
  const plain = `${plan} ${picture}`.normalize("NFC").toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, "-").replaceAll(/^-+|-+$/g, "");
  return `${plain.slice(0, 120) || "clampside"}.${kind}`;
}
