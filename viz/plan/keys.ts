/** What each key of a plan is, by its place in the file (`fields[].area`): its kind, limits and help out of the schema, what is usual out of the defaults. */
import schema from "../../scenarios/scenario.schema.json" with { type: "json" };
import { DEFAULTS, type DefaultName } from "../../sim/scenario/defaults.ts";
import { LARGEST_CV, RANGES, type RangeName } from "../../sim/scenario/limits.ts";
import type { CropKind, Scenario } from "../../sim/scenario/types.ts";
import type { DimensionName } from "../../sim/scenario/units.ts";
import { at, type Document, type Json, type Path } from "../document.ts";
import { read, shownIn } from "../quantity.ts";

/** How a key is written. */
export type Kind =
  | { readonly is: "amount"; readonly dimension: DimensionName; readonly least: number; readonly most: number }
  | { readonly is: "count"; readonly least: number; readonly most: number }
  | { readonly is: "choice"; readonly options: readonly string[] }
  /** several amounts */ | { readonly is: "amounts"; readonly dimension: DimensionName }
  /** any of these */ | { readonly is: "several"; readonly options: readonly string[] }
  | { readonly is: "switch" }
  | { readonly is: "text" };

export interface Key {
  readonly kind: Kind;
  /** one sentence and the limits, metric */ readonly help: string;
}

/** What stands when the plan is silent, as a plan would write it, and how well it is known. */
export interface Usual { readonly value: string; readonly mark: string }

interface Schema {
  readonly $ref?: string;
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly enum?: readonly string[];
  readonly minimum?: number;
  readonly maximum?: number;
}

const ROOT = schema as unknown as Schema & { readonly $defs: Readonly<Record<string, Schema>> };
/** Tractors stand at two places of a file and are one thing. */
const TRACTOR: Schema = { items: { $ref: "#/$defs/tractor" } };

function followed(schema: Schema): Schema {
  return schema.$ref === undefined ? schema : ROOT.$defs[schema.$ref.split("/").at(-1)!]!;
}

/** The part of the schema that a place means. */
function schemaAt(place: string): Schema {
  let here: Schema = ROOT;
  for (const [, name, list] of place.matchAll(/(\w+)(\[\])?/g)) {
    const group = here.properties ? here : (here.anyOf ?? []).map(followed).find(({ properties }) => properties !== undefined);
    const next = name === "tractors" && here === ROOT ? TRACTOR : group?.properties?.[name!];
    if (next === undefined) throw new RangeError(`A plan has no ${place}.`);
    here = followed(next);
    if (list !== undefined) here = followed(here.items!);
  }
  return here;
}

/** The page's word for a variation that says each activity. */
export const BY_ACTIVITY = "by-activity";

const keys = new Map<string, Key>();

/** @throws RangeError for a place that no plan has */
export function keyAt(place: string): Key {
  const known = keys.get(place);
  if (known !== undefined) return known;
  const found = schemaAt(place);
  const key = { kind: kindOf(place, found), help: found.description ?? "" };
  keys.set(place, key);
  return key;
}

/** Where the tables have what stands at several places of a plan. */
function tablePlace(place: string): string {
  return place.replace(/^.*\bbreakdowns\.(?:\w+\.)?(between|repair)$/, "breakdowns.$1").replace("search.tractors.list[]", "tractors[]").replace("search.layers", "packing.layer").replace(/^losses\..*/, "losses");
}

function kindOf(place: string, { type, anyOf, minimum, maximum, ...found }: Schema): Kind {
  const named = tablePlace(place);
  if (type === "array" && found.items?.enum) return { is: "several", options: found.items.enum };
  if (/^variation\.\w+(\.cv)?$/.test(place)) return { is: "amount", dimension: "share", least: 0, most: LARGEST_CV };
  if (/^variation\.\w+\.(low|mode|high)$/.test(place)) return { is: "count", least: 0, most: Number.MAX_SAFE_INTEGER };
  if (Object.hasOwn(RANGES, named)) {
    const range: { readonly dimension: DimensionName; readonly over?: string; readonly from?: string; readonly upTo: string } = RANGES[named as RangeName];
    if (type === "array") return { is: "amounts", dimension: range.dimension };
    return { is: "amount", dimension: range.dimension, least: read(range.over ?? range.from, range.dimension)!, most: read(range.upTo, range.dimension)! };
  }
  if (found.enum) return { is: "choice", options: found.enum };
  if (type === "integer" || type === "number") return { is: "count", least: minimum ?? 0, most: maximum ?? Number.MAX_SAFE_INTEGER };
  if (anyOf?.some((one) => one.type === "boolean")) return { is: "switch" };
  if (place === "variation") return { is: "choice", options: ["none", "typical", BY_ACTIVITY] };
  return { is: "text" };
}

/** What is usual for a key, or null when nothing is known unless the plan says it. */
export function usualAt(document: Document, path: Path, place: string): Usual | null {
  const named = tablePlace(place);
  if (!Object.hasOwn(DEFAULTS, named)) return null;
  const { value, mark }: { readonly value: string | ((its: never) => string); readonly mark: string } = DEFAULTS[named as DefaultName];
  if (typeof value === "string") return { value, mark };
  const crop = (at(document, ["crop", "kind"]) ?? "corn") as CropKind;
  const wet = share(at(document, ["crop", "moisture"]));
  const dryMatter = share(at(document, ["crop", "dryMatter"])) ?? (wet === null ? null : 1 - wet);
  const index = path.findLast((step) => typeof step === "number") ?? 0;
  const form = at(document, [...path.slice(0, -1), "form"]) === "pile" ? "pile" : "bunker";
  const its = { crop, form, ordinal: Number(index) + 1, dryMatter: dryMatter ?? 0.34 };
  return { value: (value as (its: object) => string)(its), mark };
}

/** What the check measured on the map for a key of a field, once the answer shown is about a field of that name. */
export function measuredAt(scenario: Scenario | null, document: Document, path: Path, mark: string): Usual | null {
  const [, index, key] = path;
  const field = scenario?.fields[Number(index)];
  if (!field || field.name !== at(document, [...path.slice(0, -1), "name"])) return null;
  if (key === "area") return { value: `${Number(shownIn(field.area, "area", "metric").toPrecision(4))} ha`, mark };
  if (key === "distance") return { value: `${Number(shownIn(field.distance, "distance", "metric").toFixed(2))} km`, mark };
  return { value: `${Math.round(field.rowLength)} m`, mark };
}

const share = (value: Json | undefined): number | null => (typeof value === "number" ? value : read(value, "share"));
