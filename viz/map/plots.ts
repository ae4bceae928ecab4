/** Fields of a map file as the page takes them into a plan: each by its outline, measured here as the plan's check will measure it again. */
import { roadDistance } from "../../sim/ground/distance.ts";
import { drawnIn, fieldsFromMap, type Plot as Read } from "../../sim/ground/fields.ts";
import { geometryOf, type Geometry } from "../../sim/ground/geometry.ts";
import { areaOf, middleOf } from "../../sim/ground/measures.ts";
import { outlineOf, type Outline } from "../../sim/ground/outline.ts";
import { lineBetween, type Place } from "../../sim/ground/plane.ts";
import { longestSide, meanRowLength } from "../../sim/ground/rows.ts";
import { Told } from "../../sim/ground/told.ts";
import { placeOf, type WrittenPlace } from "../../sim/scenario/pieces.ts";
import { Problems } from "../../sim/scenario/problems.ts";
import type { Problem } from "../../sim/scenario/types.ts";
import { at, listAt, put, type Document, type Json } from "../document.ts";
import { freeName, withoutItem } from "../plan/change.ts";

export interface Plot {
  /** of its feature or track in the file, from 1 */ readonly number: number;
  readonly name: string;
  /** as a plan keeps it */ readonly geometry: Geometry;
  readonly outline: Outline;
  /** m2 */ readonly area: number;
  /** degrees clockwise from north of its longest side */ readonly longest: number;
  readonly middle: Place;
  /** what the map says in so many words */ readonly given: Read["given"];
}

export interface MapRead { readonly plots: readonly Plot[]; readonly told: readonly string[]; readonly problems: readonly Problem[] }

/** What the reader chose for one plot. */
export interface Choice {
  /** degrees; null: along the longest side */ readonly rows: number | null;
  /** as typed; empty: from the middle */ readonly gate: string;
  /** length of the road over the straight line; null: the usual */ readonly factor: number | null;
}

/** Everything of use in a map, and what is not, with why. */
export function readMap(text: string): MapRead {
  const { fields, plots, told, problems } = fieldsFromMap(text);
  return { told, problems, plots: plots.map(({ number, outline: whole, given }, i) => {
    const geometry = geometryOf(whole);
    // Measured on what the plan keeps, so that the plan says the same afterwards.
    const outline = keptOf(geometry) ?? whole;
    return { number, name: fields[i]!.name, geometry, outline, given, area: areaOf(outline), longest: longestSide(outline), middle: middleOf(outline) };
  }) };
}

function keptOf(geometry: Geometry): Outline | null {
  const problems = new Problems("The outline");
  const drawn = drawnIn(JSON.stringify(geometry), problems, new Told())[0];
  return drawn ? outlineOf(drawn, problems, new Told()) : null;
}

/** m, mean between two turns along this bearing. */
export const rowsAlong = ({ outline }: Plot, bearing: number): number => meanRowLength(outline, bearing);

/** A place as a plan or a reader writes it; null where it is none. */
export function placeRead(written: Json | undefined): Place | null {
  if (written === undefined || written === "") return null;
  if (typeof written !== "string" && !(typeof at(written, ["lat"]) === "number" && typeof at(written, ["lon"]) === "number")) return null;
  const read = placeOf(written as WrittenPlace);
  return "wrong" in read ? null : read;
}

/** Straight line and road to the storage, m, and the bearing in which it lies. */
export function wayTo({ middle }: Plot, gate: Place | null, storage: Place, factor: number): { readonly straight: number; readonly road: number; readonly bearing: number } {
  const from = gate ?? middle;
  const { length, bearing } = lineBetween(from, storage);
  return { straight: length, road: roadDistance(from, storage, factor), bearing };
}

/** Where the plan has this very outline; -1 where it has not. */
export function takenAt(document: Document, { geometry }: Plot): number {
  const written = JSON.stringify(geometry);
  return listAt(document, ["fields"]).findIndex((field) => JSON.stringify(at(field, ["outline"]) ?? null) === written);
}

/** Index of the storage to which a field's crop goes first. */
export function firstStorage(document: Document, field: Json | undefined): number {
  const named = at(field, ["storage"]);
  const first = Array.isArray(named) ? (named[0] as Json) : named;
  return Math.max(0, listAt(document, ["storage"]).findIndex((storage) => first !== undefined && at(storage, ["name"]) === first));
}

/** Keys that an outline stands for, or that go with it. */
const MEASURED = new Set(["area", "distance", "rowLength", "outline", "rows", "gate", "roadFactor"]);

/** The field with this outline in place of what it said of area, rows and road; a road that nothing could be measured from stays. */
export function fieldWith(field: Document, { geometry, given }: Plot, { rows, gate, factor }: Choice, knowsStorage: boolean): Document {
  const { rowLength, ...others } = given;
  const stays = Object.entries(field).filter(([key]) => !MEASURED.has(key) || (key === "distance" && !knowsStorage));
  return {
    ...Object.fromEntries(stays), ...others,
    ...(rows === null && rowLength !== undefined && { rowLength }), ...(rows !== null && { rows: `${rows} deg` }),
    ...(gate.trim() !== "" && { gate: gate.trim() }), ...(factor !== null && given.distance === undefined && knowsStorage && { roadFactor: factor }),
    outline: geometry as unknown as Json,
  };
}

/** What a new field begins with: its name on the map, and the yield of the plan's first field. */
export function newField(document: Document, { name }: Plot): Document {
  const fields = listAt(document, ["fields"]);
  const taken = fields.some((field) => at(field, ["name"]) === name);
  const crop = at(fields[0], ["yield"]);
  return { name: taken ? freeName(fields, "name", name) : name, ...(crop !== undefined && { yield: crop }) };
}

/**
 * The plan with this plot as one of its fields.
 * @param place index of the field that it goes onto; null: behind the others as a new one
 */
export function withPlot(document: Document, plot: Plot, place: number | null, choice: Choice): Document {
  const fields = listAt(document, ["fields"]);
  const field = place === null ? newField(document, plot) : (fields[place] as Document);
  const knowsStorage = placeRead(at(document, ["storage", firstStorage(document, field), "at"])) !== null;
  const measured = fieldWith(field, plot, choice, knowsStorage);
  return put(document, ["fields"], place === null ? [...fields, measured] : fields.map((each, i) => (i === place ? measured : each)));
}

/** The plan without it: the field as it was before, or no such field where it was a new one. */
export function withoutPlot(document: Document, plot: Plot, before: Json | null): Document {
  const place = takenAt(document, plot);
  if (place < 0) return document;
  return before === null ? withoutItem(document, ["fields"], place) : put(document, ["fields", place], before);
}
