/** Tables for spreadsheets as the server sends them: the page saves the same. */
export { csv, type Cell } from "../sim/csv.ts";
