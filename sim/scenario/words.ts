/** Small words that every message about a scenario is made of: what was found, where, and what it may have been meant for. */

/** Steps from the root of a document: keys and list positions. */
export type Path = readonly (string | number)[];

/** `fields[0].area`, as a person would say it; empty for the whole document. */
export function pathOf(steps: Path): string {
  return steps.map((step, i) => (typeof step === "number" ? `[${step}]` : `${i > 0 ? "." : ""}${clipped(step)}`)).join("");
}

/** `/fields/0/area`, a JSON pointer (RFC 6901). */
export function pointerOf(steps: Path): string {
  return steps.map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

/** A value as it is shown in a sentence: text in quotes and cut short, a group or list by its name. */
export function found(value: unknown): string {
  if (typeof value === "string") return `"${clipped(value)}"`;
  if (value === null) return "empty";
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : "a list";
  if (typeof value === "object") return "a group of keys";
  if (typeof value === "boolean") return value ? "true" : "false";
  return clipped(String(value));
}

/** Marks that would move the cursor, break the line or turn the reading direction of a terminal or a page. */
const UNPRINTABLE = /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/gu;

/** True for a text that holds marks which are not for reading. */
export function unprintable(text: string): boolean {
  return text.search(UNPRINTABLE) >= 0;
}

/** At most forty characters, none of them unprintable. */
export function clipped(text: string): string {
  return printableOnly(text.length > 40 ? `${text.slice(0, 39)}…` : text);
}

/** With a dot in place of every unprintable character. */
export function printableOnly(text: string): string {
  return text.replace(UNPRINTABLE, "\u00b7");
}

/** "a", "a or b", "a, b or c". */
export function listed(words: readonly string[], last = "or"): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}

/** The known word that needs the fewest single-letter changes, or null when none is near: up to a third of the longer word, and at least two. */
export function nearest(word: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let fewest = Infinity;
  for (const candidate of known) {
    const longer = Math.max(word.length, candidate.length);
    if (Math.abs(word.length - candidate.length) >= fewest || word.length > 80) continue;
    const changes = changesBetween(word.toLowerCase(), candidate.toLowerCase());
    if (changes < fewest && changes <= Math.max(2, longer / 3) && changes < longer) {
      best = candidate;
      fewest = changes;
    }
  }
  return best;
}

/** Levenshtein's distance: letters put in, taken out or replaced. */
function changesBetween(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 0; i < a.length; i += 1) {
    const row = [i + 1];
    for (let j = 0; j < b.length; j += 1) {
      row.push(Math.min(row[j]! + 1, above[j + 1]! + 1, above[j]! + (a[i] === b[j] ? 0 : 1)));
    }
    above = row;
  }
  return above[b.length]!;
}

/** As it begins a sentence. */
export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** As it stands in the middle of a sentence. */
export const uncapital = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
