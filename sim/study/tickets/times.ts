/** Dates and times of day as scales write them; the order of day, month and year is proved by the file or asked. */
import { clipped } from "../../scenario/words.ts";
import type { Cell } from "./numbers.ts";
import { DATE_ORDERS } from "./questions.ts";
import type { DateOrder, Question } from "./questions.ts";

/** s of a day. */
export const DAY = 86_400;

const DATE = /^(\d{1,4})([-./ ])(\d{1,2})\2(\d{1,4})$/u;

/** Days since 1970-01-01, or null where there is no such date. Two digits of a year are of this century. */
function dayNumber(text: string, order: DateOrder): number | null {
  const match = DATE.exec(text);
  if (!match) return null;
  const parts = [match[1]!, match[3]!, match[4]!];
  const at = (letter: string) => parts[order.indexOf(letter)]!;
  const written = at("y");
  if (at("d").length > 2 || at("m").length > 2 || (written.length !== 4 && written.length !== 2)) return null;
  const year = written.length === 2 ? 2000 + Number(written) : Number(written);
  const [month, day] = [Number(at("m")), Number(at("d"))];
  if (year < 1970 || month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return null;
  let days = day - 1;
  for (let m = 1; m < month; m++) days += daysIn(year, m);
  const leaps = (y: number) => Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400);
  return days + (year - 1970) * 365 + leaps(year - 1) - leaps(1969);
}

const isLeap = (year: number) => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
const daysIn = (year: number, month: number) => [31, isLeap(year) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1]!;

const TIME = /^(\d{1,2})(?::|\.|h)(\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)?\s*([ap])?\.?(?:m\.?)?$/iu;

/** s after midnight, or null. */
export function timeOfDay(text: string): number | null {
  const match = TIME.exec(text.trim());
  if (!match) return null;
  const [hour, minute, second] = [Number(match[1]), Number(match[2]), Number(match[3] ?? 0)];
  const half = match[4]?.toLowerCase();
  if (minute > 59 || second > 59 || (half === undefined ? hour > 23 : hour < 1 || hour > 12)) return null;
  const hours = half === undefined ? hour : (hour % 12) + (half === "p" ? 12 : 0);
  return hours * 3600 + minute * 60 + second;
}

/** The date and the time of a cell that may hold both. */
export function apart(text: string): { readonly date: string; readonly time: string } {
  const trimmed = text.trim();
  const cut = /^(\S*\d[-./]\d+[-./]\d+)[T,\s]+(.*?)(?:Z)?$/u.exec(trimmed);
  if (cut) return { date: cut[1]!, time: cut[2]! };
  return DATE.test(trimmed) ? { date: trimmed, time: "" } : { date: "", time: trimmed };
}

export interface OrderFound { readonly order: DateOrder | null; readonly because: string; readonly question?: Question }

/** The order in which dates are written: as wished, or the only one that fits every date that is one, or all the same; else a question. */
export function orderOf(dates: readonly Cell[], wish?: DateOrder): OrderFound {
  if (wish !== undefined) return { order: wish, because: "as said" };
  let open: readonly DateOrder[] = DATE_ORDERS;
  let proof: Cell | undefined;
  const sound = dates.filter(({ text }) => DATE_ORDERS.some((order) => dayNumber(text, order) !== null));
  for (const cell of sound) {
    const left = open.filter((order) => dayNumber(cell.text, order) !== null);
    if (left.length < open.length) proof = cell;
    open = left;
  }
  const shown = proof ?? sound[0];
  const at = shown ? `"${clipped(shown.text)}" in row ${shown.row}` : "";
  if (open.length > 0 && sound.every(({ text }) => new Set(open.map((order) => dayNumber(text, order))).size === 1)) {
    return { order: open[0]!, because: proof ? `${at} cannot be read otherwise` : sound.length > 0 ? "every order gives the same dates" : "there are no dates" };
  }
  const all = open.length === 0 ? DATE_ORDERS : open;
  return { order: null, because: "", question: {
    about: "dates", answers: all,
    detail: open.length === 0 ? `In which order are dates written: ${DATE_ORDERS.join(", ")}? No order fits all of them; ${at} is where it breaks.` : `In which order are dates written: ${all.join(" or ")} (d day, m month, y year)? ${at} can be read either way, and so can all others.`,
  } };
}

/** Days since 1970-01-01. */
export const dayOf = (text: string, order: DateOrder): number | null => dayNumber(text, order);
