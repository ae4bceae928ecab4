/** Reads GeoJSON (RFC 7946): the features with an area. Every other feature is told and left out; one that is wrong is refused alone. */
import { Problems } from "../scenario/problems.ts";
import { clipped, found } from "../scenario/words.ts";
import type { Path } from "../scenario/words.ts";
import { brokenAt } from "./broken.ts";
import { placeTrouble } from "./drawn.ts";
import type { Drawn, DrawnRing } from "./drawn.ts";
import { MAP_LIMITS } from "./limits.ts";
import type { Place } from "./plane.ts";
import type { Told } from "./told.ts";

type Group = Readonly<Record<string, unknown>>;

/** Longitude and latitude in WGS84, under the names that older files give them; with each the order of numbers in a file is longitude first. */
const WGS84 = /^(urn:ogc:def:crs:OGC:[\d.]*:CRS84|OGC:CRS84|(urn:ogc:def:crs:)?EPSG:[\d.]*:?4326)$/iu;

/** Never throws; what cannot be read is among the problems. */
export function readGeoJson(text: string, problems: Problems, told: Told): readonly Drawn[] {
  let root: unknown;
  try {
    root = JSON.parse(text);
  } catch {
    problems.tell([], `This is no sound JSON${placeIn(text)}.`);
    return [];
  }
  if (!isGroup(root)) {
    problems.add([], `is ${found(root)}: a FeatureCollection, a Feature or a Polygon would do`);
    return [];
  }
  if (!isOfWgs84(root, [], problems)) return [];
  return new Reader(problems, told).features(root);
}

/** ": it breaks at line 3, column 14". */
function placeIn(text: string): string {
  const before = text.slice(0, brokenAt(text) ?? 0).split("\n");
  return `: it breaks at line ${before.length}, column ${(before.at(-1)?.length ?? 0) + 1}`;
}

const isGroup = (value: unknown): value is Group => typeof value === "object" && value !== null && !Array.isArray(value);

/** Coordinates are longitude and latitude in WGS84, by RFC 7946; files of the older kind may say otherwise, and are refused if they do. */
function isOfWgs84(group: Group, path: Path, problems: Problems): boolean {
  const { crs } = group;
  if (crs === undefined || crs === null) return true;
  const name = isGroup(crs) && isGroup(crs.properties) ? crs.properties.name : crs;
  if (typeof name === "string" && WGS84.test(name.trim())) return true;
  problems.add([...path, "crs"], `is ${found(name)}: save the map as WGS84 (EPSG:4326), longitude and latitude in degrees`);
  return false;
}

/** Thrown and caught in this file: a feature that is refused. */
class Wrong extends Error {
  constructor(readonly path: Path, readonly ending: string) {
    super(ending);
  }
}

class Reader {
  private points = 0;

  constructor(private readonly problems: Problems, private readonly told: Told) {}

  features(root: Group): Drawn[] {
    if (root.type !== "FeatureCollection") return this.feature(root, [], 1);
    if (!Array.isArray(root.features)) {
      this.problems.add(["features"], `is ${root.features === undefined ? "missing" : found(root.features)}: a list of features would do`);
      return [];
    }
    const drawn: Drawn[] = [];
    for (const [i, feature] of (root.features as unknown[]).entries()) {
      if (i >= MAP_LIMITS.features || this.points > MAP_LIMITS.points) {
        this.problems.add(["features", i], `and what follows are left out: a map may have ${MAP_LIMITS.features} features with ${MAP_LIMITS.points} points`);
        break;
      }
      drawn.push(...this.feature(feature, ["features", i], i + 1));
    }
    return drawn;
  }

  /** A Feature, or a bare geometry in its place; nothing where it has no area or is refused. */
  private feature(value: unknown, path: Path, number: number): Drawn[] {
    try {
      const group = groupAt(value, path, "a Feature");
      const isFeature = group.type === "Feature";
      if (isFeature && !isOfWgs84(group, path, this.problems)) return [];
      const properties = isFeature && isGroup(group.properties) ? group.properties : {};
      const parts = this.partsOf(isFeature ? group.geometry : group, isFeature ? [...path, "geometry"] : path, false);
      if (parts.length === 0) return [];
      return [{ path, number, name: valueOf(properties, "name") ?? valueOf(properties, "title") ?? null, given: properties, parts, driven: false }];
    } catch (wrong) {
      if (!(wrong instanceof Wrong)) throw wrong;
      this.problems.add(wrong.path, wrong.ending);
      return [];
    }
  }

  private partsOf(value: unknown, path: Path, collected: boolean): DrawnRing[][] {
    if (value === null) {
      this.told.add(`${called(path)} has no geometry: left out.`);
      return [];
    }
    const geometry = groupAt(value, path, "a geometry");
    if (!isOfWgs84(geometry, path, this.problems)) return [];
    const at = [...path, "coordinates"];
    switch (geometry.type) {
      case "Polygon": return [this.ringsOf(geometry.coordinates, at)];
      case "MultiPolygon": return listAt(geometry.coordinates, at, "polygons").map((rings, i) => this.ringsOf(rings, [...at, i]));
      case "GeometryCollection": {
        if (collected) throw new Wrong(path, "is a collection inside a collection: write its polygons as one MultiPolygon");
        return listAt(geometry.geometries, [...path, "geometries"], "geometries").flatMap((part, i) => this.partsOf(part, [...path, "geometries", i], true));
      }
      case "Point": case "MultiPoint": case "LineString": case "MultiLineString":
        this.told.add(`${called(path)} is a ${geometry.type}, which has no area: left out.`);
        return [];
      default:
        throw new Wrong([...path, "type"], `is ${geometry.type === undefined ? "missing" : found(geometry.type)}: Feature, Polygon or MultiPolygon would do`);
    }
  }

  private ringsOf(value: unknown, path: Path): DrawnRing[] {
    const rings = listAt(value, path, "rings");
    return rings.map((ring, i) => {
      const at = [...path, i];
      const positions = listAt(ring, at, "positions");
      this.points += positions.length;
      if (positions.length > MAP_LIMITS.fieldPoints || this.points > MAP_LIMITS.points) {
        throw new Wrong(at, `has ${positions.length} points: a field may have ${MAP_LIMITS.fieldPoints}, a map ${MAP_LIMITS.points}; simplify it`);
      }
      return { path: at, places: positions.map((position, p) => placeOf(position, [...at, p])) };
    });
  }
}

function placeOf(value: unknown, path: Path): Place {
  const [lon, lat] = Array.isArray(value) ? (value as unknown[]) : [];
  if (typeof lon !== "number" || typeof lat !== "number" || !Number.isFinite(lon) || !Number.isFinite(lat)) {
    throw new Wrong(path, `is ${Array.isArray(value) && value.length > 0 ? `[${value.slice(0, 3).map(found).join(", ")}]` : found(value)}: a position would do, [longitude, latitude] in degrees`);
  }
  const trouble = placeTrouble(lon, lat, "turnable");
  if (trouble !== null) throw new Wrong(path, trouble);
  return { lat, lon };
}

function groupAt(value: unknown, path: Path, would: string): Group {
  if (!isGroup(value)) throw new Wrong(path, `is ${value === undefined ? "missing" : found(value)}: ${would} would do`);
  return value;
}

function listAt(value: unknown, path: Path, called: string): readonly unknown[] {
  if (!Array.isArray(value) || value.length === 0) throw new Wrong(path, `is ${value === undefined ? "missing" : found(value)}: a list of ${called} would do`);
  return value as unknown[];
}

/** The value of a key, whatever its letters' case. */
export function valueOf(group: Group, key: string): unknown {
  const match = Object.keys(group).find((name) => name.toLowerCase() === key.toLowerCase());
  return match === undefined ? undefined : group[match];
}

/** "features[3]", or the map itself. */
const called = (path: Path): string => {
  const [list, number] = path;
  return typeof number === "number" ? `${clipped(String(list))}[${number}]` : "The map";
};
