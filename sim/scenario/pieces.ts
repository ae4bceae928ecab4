/**
 * The pieces a written scenario is made of, as zod schemas: quantities, shares, counts, names, choices, switches, slopes, clock times.
 * They check what a person wrote and leave it as written, so that the JSON Schema made from them says the same;
 * turning it into SI is the work of settle.ts. A message finishes the sentence that begins with the place.
 */
import { z } from "zod";
import { readPlace } from "../ground/distance.ts";
import type { Place } from "../ground/plane.ts";
import { LIMITS, RANGES } from "./limits.ts";
import type { Range, RangeName } from "./limits.ts";
import { DIMENSIONS, parse, patternOf, settled, unitsOf } from "./units.ts";
import type { DimensionName, Parsed } from "./units.ts";
import { capital, found, listed, nearest, unprintable } from "./words.ts";

/** "is missing" or "is 14", then what would do. */
function trouble(value: unknown, would: string): string {
  if (value === undefined) return `is missing: ${would}`;
  return `is ${found(value)}: ${would}`;
}

const BARE = /^\s*[+-]?(\d+(\.\d+)?|\.\d+)([eE][+-]?\d{1,3})?\s*$/u;

/** A quantity in SI, or what is wrong with it. Shares may be percent or a decimal; everything else needs its unit. */
export function amountOf(written: string | number, dimension: DimensionName): Parsed {
  if (dimension !== "share") return parse(String(written), dimension);
  const bare = typeof written === "number" || BARE.test(written) ? Number(written) : NaN;
  if (Number.isFinite(bare)) return { value: settled(bare) };
  return parse(String(written), dimension);
}

/** "over 0 ha and up to 5000 ha". */
function rangeWords(range: Range): string {
  const start = range.over === undefined ? `from ${range.from ?? ""}` : `over ${range.over}`;
  return `${start}${range.over === undefined ? "" : " and"} up to ${range.upTo}`;
}

/** Tells whether an SI value lies in the range; its ends are read once. */
function insideOf(range: Range): (value: number) => boolean {
  const end = (text: string): number => {
    const parsed = parse(text, range.dimension);
    if ("wrong" in parsed) throw new Error(`The limit "${text}" is no quantity: ${parsed.wrong}`);
    return parsed.value;
  };
  const [low, high] = [end(range.over ?? range.from ?? ""), end(range.upTo)];
  return range.over === undefined ? (value) => value >= low && value <= high : (value) => value > low && value <= high;
}

/** A quantity of the file, named by its place in `RANGES`. */
export function measured(name: RangeName) {
  const range: Range = RANGES[name];
  const { called } = DIMENSIONS[range.dimension];
  const share = range.dimension === "share";
  const would = share ? `a percentage or a decimal would do, ${rangeWords(range)}` : `${called} takes ${listed(unitsOf(range.dimension))}, ${rangeWords(range)}`;
  const isInside = insideOf(range);
  const check = (written: string | number, context: z.RefinementCtx): void => {
    const amount = amountOf(written, range.dimension);
    if ("wrong" in amount) context.addIssue({ code: "custom", message: share ? trouble(written, would) : trouble(written, amount.wrong) });
    else if (!isInside(amount.value)) context.addIssue({ code: "custom", message: trouble(written, `${rangeWords(range)} would do`) });
  };
  const error = ({ input }: { readonly input?: unknown }): string =>
    trouble(input, typeof input === "number" ? `the unit is missing; ${would}` : would);
  const description = `${range.about} ${capital(rangeWords(range))}.`;
  const pattern = patternOf(range.dimension);
  if (share) {
    const percent = z.string().meta({ pattern: pattern.replace("(%)", "(%)?") });
    return z.union([z.number(), percent], { error: ({ input }) => trouble(input, would) }).superRefine(check).meta({ description });
  }
  return z.string({ error }).superRefine(check).meta({ description, pattern, examples: [range.upTo] });
}

/** A name people give: one printable line. */
export function label(about: string) {
  const would = `a name of 1 to ${LIMITS.name} characters in one line would do`;
  return z.string({ error: ({ input }) => trouble(input, typeof input === "number" ? `put the name in quotes; ${would}` : would) })
    .superRefine((text, context) => {
      if (text.trim() === "" || text.length > LIMITS.name || unprintable(text)) context.addIssue({ code: "custom", message: trouble(text, would) });
    })
    .meta({ description: about, pattern: "\\S", maxLength: LIMITS.name });
}

/** A whole number of things. */
export function count(from: number, upTo: number, about: string) {
  const would = `a whole number from ${from} to ${upTo} would do`;
  return z.number({ error: ({ input }) => trouble(input, would) })
    .superRefine((value, context) => {
      if (!Number.isInteger(value) || value < from || value > upTo) context.addIssue({ code: "custom", message: trouble(value, would) });
    })
    .meta({ description: about, type: "integer", minimum: from, maximum: upTo });
}

/** A number between two ends, both included. */
export function factor(from: number, upTo: number, about: string) {
  const would = `a plain number from ${from} to ${upTo} would do`;
  return z.number({ error: ({ input }) => trouble(input, would) })
    .superRefine((value, context) => {
      if (value < from || value > upTo) context.addIssue({ code: "custom", message: trouble(value, would) });
    })
    .meta({ description: about, minimum: from, maximum: upTo });
}

export type WrittenPlace = string | { readonly lat: number; readonly lon: number };

/** A place as written, or what is wrong with it. */
export function placeOf(written: WrittenPlace): Place | { readonly wrong: string } {
  return readPlace(typeof written === "string" ? written : `${written.lat.toFixed(9)}, ${written.lon.toFixed(9)}`);
}

/** A place on the Earth: `52.1003, 8.2987`, or a group of the two. */
export function place(about: string) {
  const would = "latitude and longitude in degrees would do, such as \"52.1003, 8.2987\" or {lat: 52.1003, lon: 8.2987}";
  const degrees = (what: string) => z.number({ error: ({ input }) => trouble(input, "degrees as a plain number would do") }).meta({ description: what });
  return z.union([z.string(), group({ lat: degrees("Latitude, north of the equator above zero."), lon: degrees("Longitude, east of Greenwich above zero.") }, about)], { error: ({ input }) => trouble(input, would) })
    .superRefine((written, context) => {
      const read = placeOf(written);
      if ("wrong" in read) context.addIssue({ code: "custom", message: `is ${typeof written === "string" ? found(written) : `{lat: ${written.lat}, lon: ${written.lon}}`}: ${read.wrong}` });
    })
    .meta({ description: about, examples: ["52.1003, 8.2987"] });
}

/** A plain sum of money in the scenario's currency. */
export function sum(about: string) {
  const most = 1e9;
  const would = `a plain number from 0 to ${most} would do`;
  return z.number({ error: ({ input }) => trouble(input, would) })
    .superRefine((value, context) => {
      if (value < 0 || value > most) context.addIssue({ code: "custom", message: trouble(value, would) });
    })
    .meta({ description: about, minimum: 0, maximum: most });
}

/** One of a few words. */
export function choice<const T extends readonly [string, ...string[]]>(words: T, about: string) {
  return z.enum(words, {
    error: ({ input }) => {
      const near = typeof input === "string" ? nearest(input, words) : null;
      return trouble(input, `${near ? `did you mean ${near}? ` : ""}${listed(words)} would do`);
    },
  }).meta({ description: about });
}

const SWITCH_WORDS = ["on", "off", "yes", "no"] as const;

/** On or off. */
export function turned(about: string) {
  return z.union([z.boolean(), z.enum(SWITCH_WORDS)], { error: ({ input }) => trouble(input, "on or off would do") }).meta({ description: about });
}

/** One switch for all, or a group with a switch for each of these. */
export function switches<const T extends readonly [string, ...string[]]>(names: T, about: string) {
  const one = turned("On or off.").optional();
  const each = group(Object.fromEntries(names.map((name) => [name, one])) as { [name in T[number]]: typeof one }, "A switch for each.");
  return z.union([z.boolean(), z.enum(SWITCH_WORDS), each], { error: ({ input }) => trouble(input, `on, off, or a group with any of ${listed(names)} would do`) })
    .meta({ description: about });
}

/** Run per rise of a slope written `1:3`, or null when it is not one. */
export function slopeOf(text: string): number | null {
  const match = /^\s*(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)\s*$/u.exec(text);
  const run = match ? Number(match[2]) / Number(match[1]) : NaN;
  return Number.isFinite(run) ? run : null;
}

/** A slope `1:3`, one up and three along; from 1:1 to 1:20. */
export function slope(about: string) {
  const would = "a slope such as \"1:3\" (one up, three along) would do, from \"1:1\" to \"1:20\"";
  return z.string({ error: ({ input }) => trouble(input, would) })
    .superRefine((text, context) => {
      const run = slopeOf(text);
      if (run === null || run < 1 || run > 20) context.addIssue({ code: "custom", message: trouble(text, would) });
    })
    .meta({ description: about, pattern: "^\\s*\\d+(\\.\\d+)?\\s*:\\s*\\d+(\\.\\d+)?\\s*$", examples: ["1:3"] });
}

/** Seconds after midnight of `07:00`, or null when it is no time of day; `24:00` is midnight at the end. */
export function clockOf(text: string): number | null {
  const match = /^\s*(\d{1,2}):(\d{2})\s*$/u.exec(text);
  const [hours, minutes] = [Number(match?.[1]), Number(match?.[2])];
  if (!match || minutes > 59 || hours * 60 + minutes > 24 * 60) return null;
  return hours * 3600 + minutes * 60;
}

/** A time of day. */
export function clock(about: string) {
  const would = "a time of day such as \"07:00\" would do, up to \"24:00\"";
  return z.string({ error: ({ input }) => trouble(input, would) })
    .superRefine((text, context) => {
      if (clockOf(text) === null) context.addIssue({ code: "custom", message: trouble(text, would) });
    })
    .meta({ description: about, pattern: "^\\s*\\d{1,2}:\\d{2}\\s*$", examples: ["07:00"] });
}

/** A group of keys; any other key is refused. The message for unknown keys is the list of known ones, see problems.ts. */
export function group<T extends z.core.$ZodLooseShape>(shape: T, about: string) {
  const keys = Object.keys(shape);
  return z.strictObject(shape, {
    error: ({ code, input }) => (code === "unrecognized_keys" ? keys.join(" ") : trouble(input, `a group of keys would do: ${keys.join(", ")}`)),
  }).meta({ description: about });
}

/** A list of 1 to `most` items, called by their plural. */
export function several<T extends z.core.SomeType>(item: T, most: number, called: string) {
  const would = `a list of 1 to ${most} ${called} would do`;
  return z.array(item, { error: ({ input }) => trouble(input, would) })
    .min(1, { error: `is an empty list: ${would}` })
    .max(most, { error: `is too long: ${would}` })
    .meta({ description: capital(`${called}, 1 to ${most}.`) });
}

/** The group, or the word `none`. */
export function orNone<T extends z.ZodType>(schema: T, about: string) {
  return z.union([z.literal("none"), schema], { error: ({ input }) => trouble(input, `a group of keys or the word none would do`) }).meta({ description: about });
}
