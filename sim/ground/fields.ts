/** From the text of a map to fields as a scenario file writes them. One feature that is wrong is refused alone; nothing here throws, whatever comes in. */
import { LIMITS } from "../scenario/limits.ts";
import { measured } from "../scenario/pieces.ts";
import { Problems } from "../scenario/problems.ts";
import type { Problem } from "../scenario/types.ts";
import { displayUnit, formatNumber, inDisplayUnit } from "../scenario/units.ts";
import type { UnitSystem } from "../scenario/units.ts";
import { found, pathOf, unprintable } from "../scenario/words.ts";
import { roadDistance, roadFactor } from "./distance.ts";
import type { Drawn } from "./drawn.ts";
import { readGeoJson, valueOf } from "./geojson.ts";
import { readGpx } from "./gpx.ts";
import { MAP_LIMITS } from "./limits.ts";
import { areaOf, middleOf } from "./measures.ts";
import { outlineOf } from "./outline.ts";
import type { Outline } from "./outline.ts";
import { placed } from "./plane.ts";
import type { Place } from "./plane.ts";
import { longestSide, meanRowLength } from "./rows.ts";
import { Told } from "./told.ts";

export interface MapWishes {
  /** where the storage stands; without it no distance is worked out */ readonly storageAt?: Place;
  /** length of the road over the straight line, `roadFactor` when left out */ readonly roadFactor?: number;
  /** degrees clockwise from north along which all rows run; along each field's longest side when left out */ readonly rowBearing?: number;
  /** where trucks leave the field of this name; the road begins at its middle where this gives nothing */ gateOf?(name: string): Place | undefined;
  /** units of the quantities, metric when left out */ readonly units?: UnitSystem;
}

/** One field in the words of a scenario file. What the map does not give is left out. */
export interface MapField {
  readonly name: string;
  readonly area: string;
  readonly yield?: string;
  readonly distance?: string;
  readonly rowLength?: string;
}

/** What a field was measured on. */
export interface Plot {
  /** of its feature, track or route in the file, from 1 */ readonly number: number;
  readonly outline: Outline;
  /** what the map itself says, which goes before what the shape says */ readonly given: Pick<Partial<MapField>, "yield" | "distance" | "rowLength">;
}

export interface FieldsFromMap {
  readonly fields: readonly MapField[];
  /** one for each field */ readonly plots: readonly Plot[];
  /** what was left out, closed or assumed, a sentence each */ readonly told: readonly string[];
  readonly problems: readonly Problem[];
}

/** Reads GeoJSON or GPX, whichever the text is. */
export function fieldsFromMap(text: string, wishes: MapWishes = {}): FieldsFromMap {
  const problems = new Problems("The map");
  const told = new Told();
  const fields: MapField[] = [];
  const plots: Plot[] = [];
  for (const drawn of drawnIn(text, problems, told)) {
    if (fields.length >= LIMITS.fields) {
      problems.add(drawn.path, `and what follows are left out: a scenario may have ${LIMITS.fields} fields`);
      break;
    }
    const read = fieldOf(drawn, wishes, new Set(fields.map(({ name }) => name)), problems, told);
    if (read === null) continue;
    fields.push(read.field);
    plots.push(read.plot);
  }
  if (fields.length === 0 && problems.count === 0) problems.add([], "has no feature with an area: a Polygon, a track or a route about a field would do");
  return { fields, plots, told: told.list, problems: problems.list };
}

/** The features of a map, GeoJSON or GPX, whichever the text is; not yet checked for sense. */
export function drawnIn(text: string, problems: Problems, told: Told): readonly Drawn[] {
  if (text.length > MAP_LIMITS.text) {
    problems.add([], `has ${formatNumber(text.length, 0)} characters: up to ${formatNumber(MAP_LIMITS.text, 0)} would do`);
    return [];
  }
  const plain = text.replace(/^\ufeff/u, "");
  const begins = plain.trimStart().charAt(0);
  if (begins === "<") return readGpx(plain, problems, told);
  if (begins === "{") return readGeoJson(plain, problems, told);
  problems.add([], `${begins === "" ? "is empty" : `begins with ${found(begins)}`}: GeoJSON begins with { and GPX with <`);
  return [];
}

function fieldOf(drawn: Drawn, wishes: MapWishes, taken: ReadonlySet<string>, problems: Problems, told: Told): { readonly field: MapField; readonly plot: Plot } | null {
  const outline = outlineOf(drawn, problems, told);
  if (!outline) return null;
  const { units = "metric" } = wishes;
  const area = areaOf(outline);
  const middle = middleOf(outline);
  if (!(area >= MAP_LIMITS.area)) {
    problems.add(drawn.path, `encloses ${formatNumber(Math.max(0, area), 1)} m2 at ${placed(outline.parts[0]!.outer.places[0]!)}: a field has ${MAP_LIMITS.area} m2 at least`);
    return null;
  }
  const areaWritten = written(area, "area", units);
  if (!fits(areaWritten, "fields[].area")) {
    problems.add(drawn.path, `encloses ${apart(areaWritten)} at ${placed(middle)}: that is no one field`);
    return null;
  }
  const given = {
    ...givenOf(drawn, "yield", told), ...givenOf(drawn, "distance", told), ...givenOf(drawn, "rowLength", told),
  };
  const name = nameOf(drawn, taken, told);
  const distance = given.distance ?? distanceOf(drawn, wishes.gateOf?.(name) ?? middle, wishes, problems);
  if (distance === null) return null;
  const rows = given.rowLength ?? written(meanRowLength(outline, wishes.rowBearing ?? longestSide(outline)), "length", units);
  const hasRows = fits(rows, "fields[].rowLength");
  if (!hasRows) told.add(`${name}: rows of ${rows} are none to turn in; its row length is left out.`);
  if (taken.size === 0) told.add(`${name} lies at ${placed(middle)}; if that is far from the farm, the coordinates are in the wrong order.`);
  return {
    field: { name, area: areaWritten, ...(given.yield !== undefined && { yield: given.yield }), ...(distance !== undefined && { distance }), ...(hasRows && { rowLength: rows }) },
    plot: { number: drawn.number, outline, given },
  };
}

/** The road to the storage, as written; nothing where nobody said where that stands, null and told where it is no road of a field. */
function distanceOf(drawn: Drawn, from: Place, { storageAt, roadFactor: factor, units = "metric" }: MapWishes, problems: Problems): string | null | undefined {
  if (!storageAt) return undefined;
  const road = (place: Place) => written(roadDistance(place, storageAt, factor ?? roadFactor.value), "distance", units);
  if (fits(road(from), "fields[].distance")) return road(from);
  const turned = Math.abs(from.lon) <= 90 && fits(road({ lat: from.lon, lon: from.lat }), "fields[].distance");
  problems.add(drawn.path, `lies at ${placed(from)}, ${apart(road(from))} from the storage at ${placed(storageAt)}: ${turned ? "the order of the coordinates seems turned round; longitude comes first in GeoJSON" : "one of the two is somewhere else"}`);
  return null;
}

/** Five significant digits of area and four of length are finer than any boundary is known; roads to the metre, or the thousandth of a mile. */
function written(value: number, dimension: "area" | "distance" | "length", units: UnitSystem): string {
  const amount = inDisplayUnit(value, dimension, units);
  return `${Number(dimension === "distance" ? amount.toFixed(3) : amount.toPrecision(dimension === "area" ? 5 : 4))} ${displayUnit(dimension, units)}`;
}

/** As a sentence has it: thousands set apart. */
const apart = (quantity: string): string => quantity.replace(/^\d+/u, (whole) => formatNumber(Number(whole), 0));

type Quantity = "fields[].area" | "fields[].yield" | "fields[].distance" | "fields[].rowLength";

const CHECKS = {
  "fields[].area": measured("fields[].area"), "fields[].yield": measured("fields[].yield"),
  "fields[].distance": measured("fields[].distance"), "fields[].rowLength": measured("fields[].rowLength"),
};

const fits = (quantity: string, name: Quantity): boolean => CHECKS[name].safeParse(quantity).success;

/** A quantity that the map gives in a scenario's own words goes before what its shape says; one that cannot be used is told. */
function givenOf<K extends "yield" | "distance" | "rowLength">(drawn: Drawn, key: K, told: Told): { readonly [key in K]?: string } {
  const value = valueOf(drawn.given, key);
  if (value === undefined || value === null || value === "") return {};
  const checked = CHECKS[`fields[].${key}`].safeParse(value);
  if (checked.success) return { [key]: String(checked.data).trim() } as { readonly [key in K]: string };
  told.add(`${pathOf([...drawn.path, "properties", key])} ${checked.error.issues[0]?.message ?? "cannot be used"}; it is left out.`);
  return {};
}

/** The name in the map, made fit and single; or one from the feature's number. */
function nameOf({ name, number, path }: Drawn, taken: ReadonlySet<string>, told: Told): string {
  const plain = (typeof name === "string" || typeof name === "number" ? String(name) : "").trim();
  const usable = plain !== "" && plain.length <= LIMITS.name - 5 && !unprintable(plain);
  const wanted = usable ? plain : `Field ${number}`;
  const place = pathOf(path) || "The map";
  if (!usable && plain !== "") told.add(`${place} has a name of more than one line or ${LIMITS.name - 5} characters: it is called ${wanted}.`);
  let single = wanted;
  for (let n = 2; taken.has(single); n += 1) single = `${wanted} ${n}`;
  if (single !== wanted) told.add(`${place} is called ${found(wanted)} as another is: it is written as ${found(single)}.`);
  return single;
}
