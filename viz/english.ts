/**
 * The trade's words by country. The page and the engine are written in words that most readers know; a reader may ask for those of the
 * United States or of the United Kingdom and Ireland. Names that the reader gave to fields and machines stay as they are.
 */
import { signal } from "@preact/signals";

export const ENGLISHES = ["general", "us", "uk"] as const;
export type English = (typeof ENGLISHES)[number];

/** What the reader asked for; the address tells it at the start. */
export const english = signal<English>("general");
/** Names in the plan, which no change of words may touch. */
export const namesKept = signal<readonly string[]>([]);

/** Written word -> word of the country, all small; plurals stand for themselves. Words of the trade, common practice, no source. */
const WORDS: Readonly<Record<Exclude<English, "general">, Readonly<Record<string, string>>>> = {
  us: {
    metres: "meters", metre: "meter", litres: "liters", litre: "liter", colour: "color", grey: "gray", tonnes: "metric tons", tonne: "metric ton",
    clamp: "storage", clamps: "storages", "clamp's": "storage's", "blade tractor": "push tractor", "blade tractors": "push tractors",
  },
  uk: {
    chopper: "forager", choppers: "foragers", "chopper's": "forager's", "choppers'": "foragers'", truck: "trailer", trucks: "trailers", "truck's": "trailer's", truckload: "trailer load", truckloads: "trailer loads",
    bunker: "clamp", bunkers: "clamps", "blade tractor": "buckrake", "blade tractors": "buckrakes", blade: "buckrake", blades: "buckrakes",
    hauling: "carting", film: "sheet", corn: "maize", alfalfa: "lucerne", windrow: "swath", windrows: "swaths",
  },
};

/** A text in the reader's English. */
export function inEnglish(text: string, wanted: English = english.value, names: readonly string[] = namesKept.value): string {
  if (wanted === "general") return text;
  const table = WORDS[wanted];
  return text.replace(patternOf(wanted, names), (found, word: string | undefined) => {
    // A name is one as it was written: where a machine is called Chopper, a chopper in a sentence is turned all the same.
    const other = word === undefined && names.includes(found) ? undefined : table[found.toLowerCase()];
    if (other === undefined) return found;
    return found.charAt(0) === found.charAt(0).toUpperCase() ? other.charAt(0).toUpperCase() + other.slice(1) : other;
  });
}

/** The pattern of the last choice: every text of a drawing asks for the same one. */
let made: { readonly wanted: English; readonly names: readonly string[]; readonly pattern: RegExp } | null = null;

/** What is looked for: a name that is kept as it is, or a word that is turned; longer ones first. */
function patternOf(wanted: Exclude<English, "general">, names: readonly string[]): RegExp {
  if (made?.wanted === wanted && made.names === names) return made.pattern;
  const longest = (texts: readonly string[]) => [...texts].sort((a, b) => b.length - a.length);
  const kept = longest(names.filter((name) => name.length > 1)).map((name) => `(?<![\\p{L}])${escaped(name)}(?![\\p{L}])|`).join("");
  const pattern = new RegExp(`${kept}(?<![\\p{L}-])(${longest(Object.keys(WORDS[wanted])).map(escaped).join("|")})(?![\\p{L}-])`, "giu");
  made = { wanted, names, pattern };
  return pattern;
}

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");

/**
 * A table of texts that speaks the reader's English: every text in it, and every text that a function in it makes, is turned when it is
 * read. Read inside a drawing or a computed value, it follows the reader's choice.
 */
export function spoken<T extends object>(table: T): T {
  const known = inner.get(table);
  if (known) return known as T;
  const speaking = new Proxy(table, {
    get(target, key, receiver) {
      const value: unknown = Reflect.get(target, key, receiver);
      if (typeof value === "string") return inEnglish(value);
      if (typeof value === "function" && Object.hasOwn(target, key)) return (...given: readonly unknown[]) => turned((value as (...given: readonly unknown[]) => unknown)(...given));
      if (typeof value === "object" && value !== null) return turned(value);
      return value;
    },
  });
  inner.set(table, speaking);
  return speaking;
}

/** Tables that speak already, so that reading a text in an inner one makes nothing new. */
const inner = new WeakMap<object, object>();

function turned(value: unknown): unknown {
  if (typeof value === "string") return inEnglish(value);
  if (Array.isArray(value)) return english.value === "general" ? value : value.map(turned);
  return typeof value === "object" && value !== null ? spoken(value) : value;
}
