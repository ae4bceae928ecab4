/** What the reader may turn: read out of the scenario document, written back into it. Edits are kept apart from the document, so that they fit in an address. */
import type { AppliedDefault } from "../sim/scenario/types.ts";
import { BEHIND_RULES } from "../sim/scenario/types.ts";
import { pathOf, pointerOf } from "../sim/scenario/words.ts";
import { at, listAt, put, type Document, type Json, type Path } from "./document.ts";
import { read, shownIn, written, type DimensionName, type UnitSystem } from "./quantity.ts";

/** Control id -> value as a document says it (`6`, `12 cm`, `hold`). */
export type Edits = Readonly<Record<string, string>>;

interface Common {
  /** stable, short, used in the address: `trucks.0`, `layer`, `tractor.1` */ readonly id: string;
  readonly group: "field" | "road" | "clamp";
  /** what it turns, for the words: the part of the id before the point */ readonly what: What;
  /** name of the thing in the document, e.g. the truck kind, or null when there is only one */ readonly name: string | null;
  /** pointers of the document whose problems belong here */ readonly pointers: readonly string[];
}
export interface Amount extends Common {
  readonly type: "amount";
  readonly what: Exclude<What, "rule">;
  /** null: a plain count */ readonly dimension: DimensionName | null;
  /** SI, or the count; null when the document says something that cannot be read */ readonly value: number | null;
}
export interface Choice extends Common { readonly type: "choice"; readonly what: "rule"; readonly value: string; readonly options: readonly string[] }
export type Control = Amount | Choice;

/** `crew` and `mass` are for a storage that has tractors of its own, `tractors` and `tractor` for the crew of them all. */
export const WHATS = ["pace", "trucks", "road", "tips", "tractors", "tractor", "crew", "mass", "layer", "rule"] as const;
export type What = (typeof WHATS)[number];

/** Least, most and step of the slider, in the reader's unit; the number box takes more. */
export const RANGES: Readonly<Record<Exclude<What, "rule">, Readonly<Record<UnitSystem, readonly [number, number, number]>>>> = {
  pace: { metric: [20, 400, 5], us: [20, 440, 5] },
  trucks: { metric: [1, 16, 1], us: [1, 16, 1] },
  road: { metric: [0.2, 20, 0.1], us: [0.1, 12, 0.1] },
  tips: { metric: [1, 6, 1], us: [1, 6, 1] },
  tractors: { metric: [1, 6, 1], us: [1, 6, 1] },
  tractor: { metric: [5, 40, 0.5], us: [10_000, 88_000, 1000] },
  crew: { metric: [1, 6, 1], us: [1, 6, 1] },
  mass: { metric: [5, 40, 0.5], us: [10_000, 88_000, 1000] },
  // A layer goes up to 40 cm; 15.5 in is the last half inch below it.
  layer: { metric: [5, 40, 1], us: [2, 15.5, 0.5] },
};

const LAYER: Path = ["packing", "layer"];
const RULE: Path = ["packing", "whenBehind"];
const CREW: Path = ["packing", "tractors"];
const crewOf = (storage: number): Path => ["storage", storage, "tractors"];

/**
 * The controls of a document, in the order of the strip.
 * @param defaults what the last answer filled in: it tells what an absent key stands for
 * @param measured the fields of the last answer, for those that the plan knows by their outline only
 */
export function controlsOf(document: Document, defaults: readonly AppliedDefault[], measured: Measured = []): Control[] {
  const says = (path: Path): Json | undefined => at(document, path) ?? defaults.find((d) => d.path === pathOf(path))?.value;
  const amount = (what: Exclude<What, "rule">, i: number | string | null, group: Common["group"], name: Json | undefined, dimension: DimensionName | null, value: number | null, paths: readonly Path[]): Amount =>
    ({ type: "amount", id: i === null ? what : `${what}.${i}`, what, group, name: typeof name === "string" ? name : null, dimension, value, pointers: paths.map(pointerOf) });
  const several = (list: readonly Json[], i: number, key: string) => (list.length > 1 ? at(list[i], [key]) : undefined);

  const choppers = listAt(document, ["choppers"]);
  const trucks = listAt(document, ["trucks"]);
  const storages = listAt(document, ["storage"]);
  const tractors = listAt(document, CREW);
  return [
    ...choppers.map((_, i) => {
      const path: Path = ["choppers", i, "throughput"];
      return amount("pace", i, "field", several(choppers, i, "name"), "flow", read(says(path), "flow"), [path, ["choppers", i, "speed"]]);
    }),
    ...trucks.map((_, i) => {
      const path: Path = ["trucks", i, "count"];
      return amount("trucks", i, "road", several(trucks, i, "kind"), null, countOf(says(path), 1), [path]);
    }),
    amount("road", null, "road", null, "distance", meanDistance(document, measured), listAt(document, ["fields"]).map((_, i): Path => ["fields", i, "distance"])),
    ...storages.map((_, i) => {
      const path: Path = ["storage", i, "tippingPlaces"];
      return amount("tips", i, "clamp", several(storages, i, "name"), null, countOf(says(path), 1), [path]);
    }),
    ...(tractors.length ? [amount("tractors", null, "clamp", null, null, tractors.length, [CREW])] : []),
    ...tractors.map((tractor, i) => {
      const path: Path = [...CREW, i, "mass"];
      return amount("tractor", i, "clamp", at(tractor, ["name"]), "machineMass", read(says(path), "machineMass"), [path]);
    }),
    ...storages.flatMap((storage, s) => {
      const crew = listAt(document, crewOf(s));
      if (!crew.length) return [];
      return [amount("crew", s, "clamp", at(storage, ["name"]), null, crew.length, [crewOf(s)]), ...crew.map((tractor, i) => {
        const path: Path = [...crewOf(s), i, "mass"];
        return amount("mass", `${s}.${i}`, "clamp", at(tractor, ["name"]), "machineMass", read(says(path), "machineMass"), [path]);
      })];
    }),
    amount("layer", null, "clamp", null, "thickness", read(says(LAYER), "thickness"), [LAYER]),
    { type: "choice", id: "rule", what: "rule", group: "clamp", name: null, pointers: [pointerOf(RULE)], value: String(says(RULE) ?? ""), options: BEHIND_RULES },
  ];
}

/** The document with the reader's edits in it. An edit that fits nothing there is left out. */
export function applyEdits(original: Document, edits: Edits): Document {
  // The size of a crew first: the masses of tractors that were added come after it.
  const sizes = (id: string) => /^(tractors|crew)\b/.test(id);
  const ordered = Object.entries(edits).sort(([a], [b]) => Number(sizes(b)) - Number(sizes(a)));
  return ordered.reduce((document, [id, value]) => {
    const [what, index, second] = id.split(".");
    const i = Number(index ?? 0);
    switch (what) {
      case "trucks": return at(document, ["trucks", i]) === undefined ? document : put(document, ["trucks", i, "count"], countOrText(value));
      case "tips": return at(document, ["storage", i]) === undefined ? document : put(document, ["storage", i, "tippingPlaces"], countOrText(value));
      case "tractor": return at(document, [...CREW, i]) === undefined ? document : put(document, [...CREW, i, "mass"], value);
      case "tractors": return withCrewOf(document, CREW, Number(value));
      case "crew": return withCrewOf(document, crewOf(i), Number(value));
      case "mass": return at(document, [...crewOf(i), Number(second)]) === undefined ? document : put(document, [...crewOf(i), Number(second), "mass"], value);
      case "layer": return put(document, LAYER, value);
      case "rule": return put(document, RULE, value);
      case "road": return withRoad(document, value);
      case "pace": return withPace(document, i, value);
      default: return document;
    }
  }, original);
}

/** Tractors that a crew can be made to have by its number alone. */
export const LARGEST_CREW = 12;
export const isCrewSize = (count: number): boolean => Number.isInteger(count) && count >= 1 && count <= LARGEST_CREW;

/** Fewer tractors: the last ones stay at home. More: further ones like the last that only packs, or like the last. */
function withCrewOf(document: Document, path: Path, count: number): Document {
  const crew = listAt(document, path);
  const last = crew.at(-1);
  if (!isCrewSize(count) || last === undefined) return document;
  const { spreads: _, ...model } = last as { readonly [key: string]: Json };
  const more = Array.from({ length: Math.max(0, count - crew.length) }, (_, k) => ({ ...model, name: `Tractor ${crew.length + k + 1}` }));
  return put(document, path, [...crew.slice(0, count), ...more]);
}

/** One road for several fields: all distances grow or shrink alike, so that their mean by area is what was asked for. */
function withRoad(document: Document, value: string): Document {
  const wanted = read(value, "distance");
  const mean = meanDistance(document);
  const fields = listAt(document, ["fields"]);
  if (fields.length < 2 || wanted === null || !mean) return fields.reduce((doc: Document, _, i) => withDistance(doc, i, value), document);
  return fields.reduce((doc: Document, field, i) => {
    const distance = read(at(field, ["distance"]), "distance");
    return distance === null ? doc : withDistance(doc, i, written((distance / 1000) * (wanted / mean), "distance", "metric"));
  }, document);
}

/** A road that is told needs no factor over the straight line. */
function withDistance(document: Document, i: number, distance: string): Document {
  const { roadFactor: _, ...field } = at(document, ["fields", i]) as Document;
  return put(document, ["fields", i], { ...field, distance });
}

/** A pace that the header cannot bring at the speed in the file is driven faster for: the speed rises as far as it must. */
function withPace(document: Document, i: number, value: string): Document {
  if (at(document, ["choppers", i]) === undefined) return document;
  const paced = put(document, ["choppers", i, "throughput"], value);
  const pace = read(value, "flow");
  const width = read(at(document, ["choppers", i, "width"]), "length");
  const speed = read(at(document, ["choppers", i, "speed"]), "speed");
  const crop = meanYield(document);
  if (pace === null || !width || speed === null || !crop) return paced;
  const needed = pace / (width * crop);
  return needed > speed ? put(paced, ["choppers", i, "speed"], written(shownIn(needed, "speed", "metric"), "speed", "metric")) : paced;
}

/** Area and road of fields, m2 and m, as the check found them. */
export type Measured = readonly { readonly area: number; readonly distance: number }[];

/** m, mean by area; null when a field's distance or area is told neither by the plan nor by its outline. */
export function meanDistance(document: Document, measured: Measured = []): number | null {
  return meanByArea(document, measured, (field, i) => read(at(field, ["distance"]), "distance") ?? measured[i]?.distance ?? null);
}

/** kg fresh per m2, mean by area. */
function meanYield(document: Document): number | null {
  return meanByArea(document, [], (field) => read(at(field, ["yield"]), "yield"));
}

function meanByArea(document: Document, measured: Measured, of: (field: Json, i: number) => number | null): number | null {
  const fields = listAt(document, ["fields"]);
  const areas = fields.map((field, i) => read(at(field, ["area"]), "area") ?? measured[i]?.area ?? null);
  const values = fields.map(of);
  if (values.includes(null) || fields.length === 0) return null;
  // Where an area is nowhere to be had, all fields count alike.
  const weights = areas.includes(null) ? fields.map(() => 1) : (areas as number[]);
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  return whole > 0 ? (values as number[]).reduce((sum, value, i) => sum + value * weights[i]!, 0) / whole : null;
}

function countOf(value: Json | undefined, absent: number): number | null {
  if (value === undefined) return absent;
  const count = Number(value);
  return Number.isFinite(count) ? count : null;
}

const countOrText = (value: string): Json => (value.trim() !== "" && Number.isFinite(Number(value)) ? Number(value) : value);
