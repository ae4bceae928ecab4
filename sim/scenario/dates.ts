/** Days of the calendar as whole numbers, so that they can be counted: day 0 is 1970-01-01. The engine has no clock of its own, and needs none for this. */

/** Days before each month of a year that begins with March, so that a leap day is the last of its year. */
const BEFORE_MONTH = [0, 31, 61, 92, 122, 153, 184, 214, 245, 275, 306, 337];
/** Days from 1 March of the year 0 to day 0. */
const TO_DAY_0 = 719_468;

/** Days from 1 March of the year 0 to 1 March of this one, by the Gregorian rule. */
const beforeYear = (year: number): number => 365 * year + Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400);

/** The number of a day written `2026-09-14`, years 1900 to 2199; null when the text is no date, or no such day is in the calendar. */
export function dayOf(text: string): number | null {
  const match = /^\s*(\d{4})-(\d{2})-(\d{2})\s*$/u.exec(text);
  if (!match) return null;
  const [year, month, date] = match.slice(1).map(Number) as [number, number, number];
  if (year < 1900 || year > 2199 || month < 1 || month > 12 || date < 1) return null;
  const day = beforeYear(month < 3 ? year - 1 : year) + BEFORE_MONTH[(month + 9) % 12]! + date - 1 - TO_DAY_0;
  // 30 February would be some day of March: then it is none.
  return dateOf(day) === match[0].trim() ? day : null;
}

/** The date of a day, `2026-09-14`. */
export function dateOf(day: number): string {
  const since = day + TO_DAY_0;
  let year = Math.floor(since / 365.2425);
  while (beforeYear(year) > since) year--;
  while (beforeYear(year + 1) <= since) year++;
  const inYear = since - beforeYear(year);
  const month = BEFORE_MONTH.findLastIndex((before) => before <= inYear);
  const two = (n: number) => String(n).padStart(2, "0");
  return `${String(month > 9 ? year + 1 : year).padStart(4, "0")}-${two(((month + 2) % 12) + 1)}-${two(inYear - BEFORE_MONTH[month]! + 1)}`;
}
