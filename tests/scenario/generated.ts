/** Generated documents: sound days with something broken, or anything at all. */
import fc from "fast-check";
import { fullDay, leastDay } from "./days.ts";

/** Runs of a property: the whole number where long checks are asked for. */
export const runs = (usual: number, long: number): number => (process.env.CLAMPSIDE_LONG ? long : usual);

const junkWord = fc.oneof(
  fc.string({ maxLength: 30 }), fc.string({ unit: "binary", maxLength: 30 }),
  fc.constantFrom("", " ", "0", "-1", "1e999", "NaN", "Infinity", "__proto__", "constructor", "none", "typical", "on", "\u0000", "\u202e", "\ud800", "1:3", "1:0", "0:1", "24:00", "99:99", "x".repeat(5000)),
  fc.tuple(
    fc.oneof(fc.double({ noDefaultInfinity: true, noNaN: true }), fc.integer({ min: -5, max: 500 })),
    fc.constantFrom("", "ha", "acre", "t/ha", "ton/acre", "km", "m", "ft", "in", "cm", "t", "ton", "lb", "km/h", "mph", "min", "h", "s", "%", "kg/m3", "lb/ft3", "per h", "per t", "kW", "hp", "kPa", "psi", "furlong", "years"),
  ).map(([amount, unit]) => `${amount} ${unit}`),
);

/** Any value that a file could hold, and some that only a program could. */
export const junk: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 4, arbitrary: junkWord },
  { weight: 2, arbitrary: fc.oneof(fc.double(), fc.integer(), fc.boolean(), fc.constant(null), fc.constant(undefined)) },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 4 }) },
);

const anyKey = fc.oneof(junkWord, fc.constantFrom("name", "area", "storage", "tractors", "chopper", "shape", "cv", "price", "paid", "moisture", "breakdowns", "topWidth", "sideSlope", "search", "__proto__", "prototype"));

type Holder = Record<string, any>;

/** Every group and list of a document. */
function holdersOf(value: unknown, into: Holder[] = []): Holder[] {
  if (typeof value === "object" && value !== null) {
    into.push(value as Holder);
    Object.values(value).forEach((item) => holdersOf(item, into));
  }
  return into;
}

/** One change at one place: a value replaced, a key left out, a key put in, an item doubled, two values swapped. */
const change = fc.record({ kind: fc.constantFrom("replace", "drop", "add", "double", "swap"), where: fc.nat(), which: fc.nat(), key: anyKey, value: junk });

function apply(day: Holder, { kind, where, which, key, value }: { kind: string; where: number; which: number; key: string; value: unknown }): void {
  const holders = holdersOf(day);
  const holder = holders[where % holders.length]!;
  const keys = Object.keys(holder);
  const at = keys[which % Math.max(1, keys.length)] ?? key;
  const put = (name: string, what: unknown) => Object.defineProperty(holder, name, { value: what, enumerable: true, configurable: true, writable: true });
  if (kind === "replace") put(at, value);
  else if (kind === "drop" && !Array.isArray(holder)) delete holder[at];
  else if (kind === "add" && !Array.isArray(holder)) put(key, value);
  else if (kind === "double" && Array.isArray(holder)) holder.push(structuredClone(holder[0]));
  else if (kind === "swap") {
    const other = holders[which % holders.length]!;
    const otherKey = Object.keys(other)[0];
    if (otherKey !== undefined) put(at, structuredClone(other[otherKey]));
  }
}

export interface Breaking {
  /** what is broken */ readonly days?: readonly (() => Record<string, any>)[];
  /** changes */ readonly fewest?: number;
  readonly most?: number;
}

/** A sound day, of the least that must be said or with every key, with one to four changes unless told otherwise; some of them leave it sound. */
export function brokenDay({ days = [leastDay, fullDay], fewest = 1, most = 4 }: Breaking = {}): fc.Arbitrary<Record<string, any>> {
  return fc.tuple(fc.constantFrom(...days), fc.array(change, { minLength: fewest, maxLength: most })).map(([sound, changes]) => {
    const day = sound();
    for (const one of changes) apply(day, one);
    return day;
  });
}

/** Text with pieces cut out, doubled or put in: in one to five places unless told otherwise. */
export function brokenText(text: string, { fewest = 1, most = 5 }: Pick<Breaking, "fewest" | "most"> = {}): fc.Arbitrary<string> {
  const cut = fc.record({ at: fc.nat({ max: text.length }), length: fc.nat({ max: 40 }), put: fc.oneof(junkWord, fc.constantFrom("", "\n", "\t", "  ", ": ", "- ", "{", "}", "[", "]", "&a ", "*a", "!!x ", "#", "|", ">", "\"", "'", "---\n", "? ", "%")) });
  return fc.array(cut, { minLength: fewest, maxLength: most }).map((cuts) => cuts.reduce((whole, { at, length, put }) => whole.slice(0, at) + put + whole.slice(at + length), text));
}
