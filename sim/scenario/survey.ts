/** Area, row length and distance of a field: as written, or measured on its outline and on where the storage stands. */
import { roadDistance } from "../ground/distance.ts";
import type { Drawn } from "../ground/drawn.ts";
import { drawnIn } from "../ground/fields.ts";
import { areaOf, middleOf } from "../ground/measures.ts";
import { outlineOf } from "../ground/outline.ts";
import type { Outline } from "../ground/outline.ts";
import type { Place } from "../ground/plane.ts";
import { longestSide, meanRowLength } from "../ground/rows.ts";
import { Told } from "../ground/told.ts";
import type { Desk } from "./desk.ts";
import { RANGES } from "./limits.ts";
import { measured, placeOf } from "./pieces.ts";
import type { WrittenPlace } from "./pieces.ts";
import { Problems } from "./problems.ts";
import type { Problem } from "./types.ts";
import { formatQuantity, settled } from "./units.ts";
import { found, listed, pathOf } from "./words.ts";
import type { Path } from "./words.ts";
import type { WrittenField, WrittenStorage } from "./written.ts";

/** The mark of what was measured, in the list of what the file left out. */
const ON_THE_MAP = "measured on the map";

/** m2 and m */
export interface Ground { readonly area: number; readonly rowLength: number; readonly distance: number }

interface MapFile { readonly drawn: readonly Drawn[]; readonly problems: readonly Problem[] }

/** `fields.geojson#Long Strip`: a file without folders before the mark, a feature's name or number behind it. */
const REFERENCE = /^\s*(?<file>[^#/\\]+?)\s*(?:#\s*(?<feature>.+?)\s*)?$/u;

/** Measures the fields of one scenario; each map file is read once. What is wrong is on the desk's problems, and the figure is then of no use. */
export class Survey {
  private readonly files = new Map<string, MapFile | { readonly wrong: string }>();

  constructor(private readonly storages: readonly WrittenStorage[], private readonly desk: Desk) {}

  /** @param first index of the storage that the field leads to first */
  of(field: WrittenField, at: Path, first: number | undefined): Ground {
    const { desk } = this;
    if (field.rows !== undefined && (field.outline === undefined || field.rowLength !== undefined)) {
      desk.problems.add([...at, "rows"], `is ${found(field.rows)}, but ${field.outline === undefined ? "there is no outline to lay rows across" : "the rowLength is given"}: leave it out`);
    }
    const told = new Told();
    const outline = field.outline === undefined ? null : this.outlineOf(field.outline, [...at, "outline"], told);
    const figures: string[] = [];
    const measure = (name: "area" | "rowLength", how: (outline: Outline) => number): number => {
      if (field[name] !== undefined) return desk.si(field[name], `fields[].${name}`);
      if (outline === null) return field.outline === undefined && name === "rowLength" ? desk.siOr(undefined, "fields[].rowLength", at) : NaN;
      const value = settled(how(outline));
      figures.push(name === "area" ? formatQuantity(value, "area", "metric", 2) : `rows of ${formatQuantity(value, "length", "metric", 0)}`);
      return this.inRange(value, name, [...at, "outline"]);
    };
    const area = measure("area", areaOf);
    const rowLength = measure("rowLength", (its) => meanRowLength(its, field.rows === undefined ? longestSide(its) : desk.si(field.rows, "fields[].rows")));
    const distance = this.distanceOf(field, at, outline, first, figures);
    if (figures.length > 0) {
      desk.silence.applied.push({ path: pathOf([...at, "outline"]), value: `${figures.join(", ")}${told.list.length > 0 ? `; ${told.list.join(" ")}` : ""}`, mark: ON_THE_MAP });
    }
    return { area, rowLength, distance };
  }

  /** As written; else from the gate, or the middle of the outline, to the first storage of the field. */
  private distanceOf(field: WrittenField, at: Path, outline: Outline | null, first: number | undefined, figures: string[]): number {
    const { desk } = this;
    if (field.distance !== undefined) {
      if (field.roadFactor !== undefined) desk.problems.add([...at, "roadFactor"], `is ${field.roadFactor}, but the distance is given: leave one of them out`);
      return desk.si(field.distance, "fields[].distance");
    }
    const from = field.gate === undefined ? outline && middleOf(outline) : this.place(field.gate);
    // A misspelt storage or a refused outline is told already.
    if (first === undefined || from === null) return NaN;
    const there = this.storages[first]!.at;
    if (there === undefined) {
      desk.problems.add([...at, "distance"], `is missing: give it, or say where ${pathOf(["storage", first])} stands, such as at: "52.1003, 8.2987"`);
      return NaN;
    }
    const factor = Number(desk.silence.fill(field.roadFactor, "fields[].roadFactor", pathOf([...at, "roadFactor"])));
    const distance = settled(roadDistance(from, this.place(there), factor));
    const byRoad = `${formatQuantity(distance, "distance", "metric", 2)} by road`;
    if (field.gate === undefined) figures.push(`${byRoad} from its middle`);
    else desk.silence.applied.push({ path: pathOf([...at, "gate"]), value: byRoad, mark: ON_THE_MAP });
    return this.inRange(distance, "distance", [...at, field.gate === undefined ? "outline" : "gate"]);
  }

  /** A place that the schema has already passed. */
  private place(written: WrittenPlace): Place {
    return placeOf(written) as Place;
  }

  private inRange(value: number, name: "area" | "rowLength" | "distance", path: Path): number {
    const range = `fields[].${name}` as const;
    if (measured(range).safeParse(`${value} ${name === "area" ? "m2" : "m"}`).success) return value;
    const [called, dimension] = ({ area: ["an area", "area"], rowLength: ["rows", "length"], distance: ["a road", "distance"] } as const)[name];
    const swapped = name === "distance" ? "; in GeoJSON longitude comes first" : "";
    this.desk.problems.add(path, `gives ${called} of ${formatQuantity(value, dimension, "metric")}, where up to ${RANGES[range].upTo} would do${swapped}`);
    return value;
  }

  private outlineOf(written: NonNullable<WrittenField["outline"]>, path: Path, told: Told): Outline | null {
    const called = pathOf(path);
    const problems = new Problems(called);
    const pass = (list: readonly Problem[], prefix: string): null => {
      for (const { pointer, detail } of list) {
        // Inside an outline that stands here the place can be told to the point.
        const inside = prefix === "." ? pointer.split("/").slice(1) : [];
        this.desk.problems.tell([...path, ...inside], detail.startsWith(called) ? detail : `${called}${prefix}${detail}`);
      }
      return null;
    };
    if (typeof written !== "string") {
      const drawn = drawnIn(JSON.stringify(written), problems, told)[0];
      const outline = drawn ? outlineOf(drawn, problems, told) : null;
      if (!outline && problems.count === 0) problems.add([], "has no area: a Polygon or MultiPolygon would do");
      return outline ?? pass(problems.list, ".");
    }
    const drawn = this.feature(written, path, pass);
    return drawn && (outlineOf(drawn, problems, told) ?? pass(problems.list, `, ${found(written)}: `));
  }

  /** The feature of a map file that is meant; null, and told, where there is none such. */
  private feature(written: string, path: Path, pass: (list: readonly Problem[], prefix: string) => null): Drawn | null {
    const { problems } = this.desk;
    const refuse = (ending: string): null => {
      problems.add(path, `is ${found(written)}: ${ending}`);
      return null;
    };
    const { file, feature } = REFERENCE.exec(written)?.groups ?? {};
    if (file === undefined || file.startsWith(".")) return refuse("a file in the scenario's own folder would do, without a path, such as fields.geojson#Long Strip");
    if (!this.desk.mapOf) return refuse("a map file is read by the command line only; put the outline itself here, a GeoJSON Polygon or Feature");
    const map = this.fileOf(file, this.desk.mapOf);
    if ("wrong" in map) {
      problems.tell(path, `${pathOf(path)}, ${found(written)}: ${map.wrong}`);
      return null;
    }
    if (map.drawn.length === 0 && map.problems.length > 0) return pass(map.problems, `, ${found(file)}: `);
    const nameOf = ({ name }: Drawn) => String(name ?? "").trim();
    const meant = feature === undefined ? map.drawn : map.drawn.filter((each) => (/^\d+$/u.test(feature) ? each.number === Number(feature) : nameOf(each) === feature));
    if (meant.length === 1) return meant[0]!;
    const broken = map.problems.filter(({ pointer }) => pointer.startsWith(`/features/${Number(feature) - 1}/`));
    if (broken.length > 0) return pass(broken, `, ${found(file)}: `);
    const known = listed(map.drawn.slice(0, 8).map((each) => (nameOf(each) === "" ? `#${each.number}` : found(nameOf(each)))), "and");
    if (meant.length > 1) return refuse(`${feature === undefined ? `the map has ${meant.length} fields` : `${meant.length} features have that name`}; say which by its number, such as ${file}#${meant[0]!.number}`);
    return refuse(`the map has no such field; there ${map.drawn.length === 1 ? "is" : "are"} ${known || "none"}${map.problems.length > 0 ? `; and ${map.problems[0]!.detail}` : ""}`.replace(/\.$/u, ""));
  }

  private fileOf(name: string, mapOf: NonNullable<Desk["mapOf"]>): MapFile | { readonly wrong: string } {
    const known = this.files.get(name);
    if (known) return known;
    const text = mapOf(name);
    const problems = new Problems("The map");
    const read = typeof text === "string" ? { drawn: drawnIn(text, problems, new Told()), problems: problems.list } : text;
    this.files.set(name, read);
    return read;
  }
}
