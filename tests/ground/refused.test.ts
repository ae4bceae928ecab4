/** Maps that are wrong: each kind is refused in one sentence with its place, the rest of the map stays of use, and nothing ever throws. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { brokenAt } from "../../sim/ground/broken.ts";
import { fieldsFromMap } from "../../sim/ground/fields.ts";
import { LIMITS } from "../../sim/scenario/limits.ts";
import { measured } from "../../sim/scenario/pieces.ts";
import { MAP_LIMITS } from "../../sim/ground/limits.ts";
import type { Place } from "../../sim/ground/plane.ts";
import { runs } from "../kernel/runs.ts";
import { anyField, away, closed, feature, gpx, mapOf, multiPolygon, polygon, position, rectangle, track } from "./laid.ts";

const middle: Place = { lat: 52.1, lon: 8.3 };
const sound = rectangle(middle, 20, 500, 300);
const [a, b, c, d] = sound as [Place, Place, Place, Place];
const raw = (...rings: unknown[]) => ({ type: "Polygon", coordinates: rings });
const first = "features[0].geometry.coordinates";
const hole = (from: Place, length = 50) => rectangle(from, 20, length, 40);

/** What is wrong, a map with it as its first feature, and words that the sentence must hold, its place among them. */
const WRONG: readonly (readonly [string, unknown, readonly string[]])[] = [
  ["a ring of two points", raw([position(a), position(b), position(a)]), [`${first}[0] has 2 points apart`]],
  ["a ring of one point, many times", raw(Array.from({ length: 5 }, () => position(a))), [`${first}[0] has 1 point apart`]],
  ["a ring without points", raw([]), [`${first}[0] is an empty list`]],
  ["a polygon without rings", raw(), [`${first} is an empty list`]],
  ["a field without parts", { type: "MultiPolygon", coordinates: [] }, [`${first} is an empty list`]],
  ["points on one line", polygon([a, away(a, 90, 300), away(a, 90, 200)]), ["encloses 0.", "m2 at 52.1"]],
  ["a ring that crosses itself", polygon([a, c, b, d]), [`${first}[0] crosses or touches itself at 52.10000 N, 8.30000 E, after its points 0 and 2`]],
  ["a ring that passes one point twice", polygon([a, b, middle, c, d, middle]), [`${first}[0] crosses or touches itself at 52.10000 N, 8.30000 E`]],
  ["a hole that crosses its field's edge", polygon(sound, hole(a)), [`${first}[1] crosses ${first}[0] at 52.`]],
  ["a hole outside of its field", polygon(sound, hole(away(middle, 90, 900))), [`${first}[1] is a hole that lies outside of its field at 52.`]],
  ["a hole inside another", polygon(sound, hole(middle, 200), hole(middle)), [`${first}[2]`, "overlaps", `${first}[1] at 52.1`]],
  ["a hole that is there twice", polygon(sound, hole(middle), hole(middle)), [`${first}[2] overlaps ${first}[1]`]],
  ["a hole as large as the field", polygon(sound, sound), ["encloses 0.0 m2"]],
  ["two parts of which one lies in the other", multiPolygon([sound], [hole(middle)]), [`${first}[1][0] overlaps ${first}[0][0] at 52.1`]],
  ["two parts that cross", multiPolygon([sound], [rectangle(away(middle, 20, 300), 20, 500, 200)]), [`${first}[1][0] crosses ${first}[0][0] at 52.`]],
  ["a part that is there twice", multiPolygon([sound], [sound]), [`${first}[1][0] overlaps ${first}[0][0]`]],
  ["latitude before longitude, where that can be seen", raw([[44.1, -93.2], [44.1, -93.1], [44.2, -93.1], [44.1, -93.2]]), [`${first}[0][0] is 44.1, -93.2`, "order seems turned round"]],
  ["one point with its numbers turned round", raw([...closed(sound).slice(0, 3), [52.1, 8.3], position(a)]), [`${first}[0][3] lies at 8.3`, "km from the first point"]],
  ["metres of a projected system", raw([[3_450_000, 5_775_000], [3_450_300, 5_775_000], [3_450_300, 5_775_200]]), [`${first}[0][0] is 3450000, 5775000: metres of another reference system`]],
  ["a longitude beyond 180", raw([[190, 52]]), [`${first}[0][0]`, "between -180 and 180"]],
  ["a pole", raw([[0, 89.9], [120, 89.9], [-120, 89.9]]), [`${first}[0][0]`, "of a pole"]],
  ["a system of its own", { ...polygon(sound), crs: { type: "name", properties: { name: "urn:ogc:def:crs:EPSG::25832" } } }, ["features[0].geometry.crs is \"urn:ogc:def:crs:EPSG::25832\"", "WGS84"]],
  ["a position of text", raw([["8.3", "52.1"]]), [`${first}[0][0] is ["8.3", "52.1"]: a position would do`]],
  ["a position of one number", raw([[8.3]]), [`${first}[0][0]`, "a position would do"]],
  ["a ring that is no list", raw("52.1, 8.3"), [`${first}[0] is "52.1, 8.3": a list of positions would do`]],
  ["a geometry of no known type", { type: "Circle", coordinates: [8, 52] }, ["features[0].geometry.type is \"Circle\""]],
  ["a collection in a collection", { type: "GeometryCollection", geometries: [{ type: "GeometryCollection", geometries: [] }] }, ["geometries[0] is a collection inside a collection"]],
  ["a sliver", polygon(rectangle(middle, 0, 9, 10)), ["encloses 90.0 m2", "100 m2 at least"]],
  ["a county", polygon(rectangle(middle, 0, 9000, 9000)), ["encloses 8,100 ha", "no one field"]],
];

describe("A map", () => {
  it.each(WRONG)("with %s is refused there, and its other field is still read", (_, geometry, words) => {
    const { fields, problems } = fieldsFromMap(mapOf(feature(geometry), feature(polygon(rectangle(away(middle, 0, 5000), 0, 300, 200)), { name: "Still good" })));
    expect(fields.map(({ name }) => name)).toEqual(["Still good"]);
    expect(problems).toHaveLength(1);
    for (const word of words) expect(problems[0]!.detail).toContain(word);
    expect(problems[0]!.pointer.startsWith("/features/0")).toBe(true);
  });

  it("of another reference system is refused as a whole; WGS84 under its older names is not", () => {
    const crs = (name: string) => JSON.stringify({ ...JSON.parse(mapOf(feature(polygon(sound)))), crs: { type: "name", properties: { name } } });
    expect(fieldsFromMap(crs("EPSG:31467"))).toMatchObject({ fields: [], problems: [{ pointer: "/crs" }] });
    for (const name of ["urn:ogc:def:crs:OGC:1.3:CRS84", "EPSG:4326", "urn:ogc:def:crs:EPSG::4326"]) expect(fieldsFromMap(crs(name)).problems, name).toEqual([]);
  });

  it("whose order of coordinates shows only beside the storage is refused with that reason", () => {
    const turned = raw(closed(sound).map(([lon, lat]) => [lat, lon]));
    expect(fieldsFromMap(mapOf(feature(turned))).told.join(" ")).toContain("wrong order");
    const { fields, problems } = fieldsFromMap(mapOf(feature(turned)), { storageAt: middle });
    expect(fields).toEqual([]);
    expect(problems[0]!.detail).toMatch(/^features\[0\] lies at 8\.30000 N, 52\.10000 E, \d,\d{3}\.\d+ km from the storage at 52\.10000 N, 8\.30000 E: the order of the coordinates/u);
    expect(fieldsFromMap(mapOf(feature(polygon(sound))), { storageAt: { lat: -33, lon: 18 } }).problems[0]!.detail).toContain("one of the two is somewhere else");
  });

  it("may leave the ring open and say a point twice: both are mended", () => {
    const { fields, problems, told } = fieldsFromMap(mapOf(feature(raw([a, a, b, c, c, d].map(position)))));
    expect(problems).toEqual([]);
    expect(parseFloat(fields[0]!.area)).toBeCloseTo(15, 2);
    expect(told.join(" ")).toContain(`${first}[0] does not come back to its first point`);
  });

  it("may hold parts and holes that only touch", () => {
    const shapes = [multiPolygon([[a, b, c]], [[c, d, a]]), polygon([a, b, c, d], [a, b, middle])];
    for (const shape of shapes) expect(fieldsFromMap(mapOf(feature(shape))).problems).toEqual([]);
  });

  it("may hold what has no area: it is left out and told", () => {
    const line = { type: "LineString", coordinates: closed(sound) };
    const { fields, told, problems } = fieldsFromMap(mapOf(feature(line), feature(null), feature(polygon(sound)), feature({ type: "Point", coordinates: [8, 52] })));
    expect([fields.length, problems]).toEqual([1, []]);
    for (const words of ["features[0] is a LineString", "features[1] has no geometry", "features[3] is a Point"]) expect(told.join(" ")).toContain(words);
    expect(fieldsFromMap(mapOf(feature(line))).problems[0]!.detail).toContain("no feature with an area");
  });

  it("that cannot be read says why, and where", () => {
    for (const [text, words] of [
      ["", "is empty"], ["name: Hill", "begins with \"n\""], ["[]", "begins with \"[\""], ["{\n  \"type\": nonsense}", "no sound JSON"], ["{}", "type is missing"],
      [`{"type": "FeatureCollection"}`, "features is missing"], [`{"type": "Topology"}`, "type is \"Topology\""],
      [" ".repeat(MAP_LIMITS.text + 1), "characters"],
    ] as const) {
      expect(fieldsFromMap(text).problems[0]?.detail, text.slice(0, 40)).toContain(words);
    }
    expect(fieldsFromMap("{\n  \"type\": nonsense}").problems[0]!.detail).toContain("line 2, column 11");
  });

  it("is read up to its bounds, and what is left out is told", () => {
    const small = (i: number) => feature(polygon(rectangle(away(middle, 90, 40 * i), 0, 30, 20)));
    const many = fieldsFromMap(mapOf(...Array.from({ length: LIMITS.fields + 1 }, (_, i) => small(i))));
    expect(many.fields).toHaveLength(LIMITS.fields);
    expect(many.problems[0]!.detail).toMatch(/^features\[200\] and what follows are left out/u);
    const round = Array.from({ length: MAP_LIMITS.fieldPoints + 1 }, (_, i) => away(middle, (360 * i) / (MAP_LIMITS.fieldPoints + 1), 500));
    expect(fieldsFromMap(mapOf(feature(polygon(round)))).problems[0]!.detail).toContain(`has ${MAP_LIMITS.fieldPoints + 2} points`);
    expect(fieldsFromMap(gpx(track(round))).problems[0]!.detail).toContain(`has more than ${MAP_LIMITS.fieldPoints} points`);
  });
});

describe("A GPX file", () => {
  const hectaresOf = (text: string) => {
    const { fields, problems } = fieldsFromMap(text);
    expect(problems).toEqual([]);
    return parseFloat(fields[0]!.area);
  };

  it("gives a field for each track and route; segments follow each other", () => {
    const [left, right] = [track([a, b]), track([c, d, a])].map((text) => text.replaceAll(/<\/?trk>|<name>.*<\/name>/gu, ""));
    expect(hectaresOf(gpx(`<trk><name>A &amp; B</name>${left}${right}</trk>`))).toBeCloseTo(15, 2);
    const route = track(sound).replaceAll("trkpt", "rtept").replaceAll(/<\/?trkseg>/gu, "").replaceAll("trk>", "rte>");
    const { fields, told } = fieldsFromMap(gpx(`<wpt lat="52" lon="8"/>${track([...sound, a], "Hill")}${route}`));
    expect(fields.map(({ name }) => name)).toEqual(["Hill"]);
    expect(told.join(" ")).toContain("1 waypoint");
  });

  it("may have small loops where the machine turned or stood and the receiver strayed: they are left out, and that is told", () => {
    const corner = (place: Place, bearing: number) => [place, away(place, bearing, 12), away(place, bearing + 90, 12), away(place, bearing + 180, 6)];
    // Seven places within a few metres, in an order that crosses itself more than once.
    const standing = [0, 150, 290, 80, 220, 10, 140].map((bearing, i) => away(away(a, 0, 0), bearing, 2 + (i % 3)));
    const round = [...standing, b, ...corner(c, 30), d, a];
    const { fields, told, problems } = fieldsFromMap(gpx(track(round, "Hill")));
    expect(problems).toEqual([]);
    expect(Math.abs(parseFloat(fields[0]!.area) - 15)).toBeLessThan(0.25);
    expect(told.join(" ")).toMatch(/trk\[0\] crosses itself in \d small loops, which are left out: the machine turned or stood there, or the receiver strayed\./u);
    // Drawn on a map, the same is a slip of the pen.
    expect(fieldsFromMap(mapOf(feature(polygon(round)))).problems[0]!.detail).toContain("crosses or touches itself");
  });

  it("may be driven on past its beginning", () => {
    const past = [...sound, away(a, 90, 1), ...[20, 12].map((m) => away(a, 200, m))];
    expect(Math.abs(hectaresOf(gpx(track(past))) - 15)).toBeLessThan(0.1);
  });

  it.each([
    ["a track that does not come back", gpx(track([a, b, away(b, 110, 2000)])), ["trk[0] ends", "m from where it began"]],
    ["a track of two points", gpx(track([a, b])), ["trk[0] has 2 points"]],
    ["a track that crosses itself", gpx(track([a, c, b, d, a])), ["trk[0] crosses or touches itself at 52.10000 N, 8.30000 E"]],
    ["a point without longitude", gpx("<trk><trkseg><trkpt lat=\"52\"/></trkseg></trk>"), ["trk[0].trkpt[0] (line 2) has lat \"52\" and lon missing"]],
    ["a latitude of 95", gpx("<trk><trkseg><trkpt lat=\"95\" lon=\"8\"/></trkseg></trk>"), ["trk[0].trkpt[0] (line 2) is 8, 95", "between -90 and 90"]],
    ["a number with a comma", gpx("<trk><trkseg><trkpt lat=\"52,1\" lon=\"8,3\"/></trkseg></trk>"), ["lat \"52,1\""]],
    ["a document type", `<!DOCTYPE gpx [<!ENTITY a "aaaa">]>${gpx("")}`, ["document type"]],
    ["an entity of its own", gpx("<trk><name>&a;</name></trk>"), ["no sound XML at line 2"]],
    ["tags that do not match", gpx("<trk></rte>"), ["no sound XML at line 2"]],
    ["another root", "<kml></kml>", ["begins with <kml>"]],
    ["an endless nest", gpx("<a>".repeat(1000)), ["deep inside each other"]],
  ])("with %s is refused with its place", (_, text, words) => {
    const { fields, problems } = fieldsFromMap(text);
    expect(fields).toEqual([]);
    for (const word of words) expect(problems[0]!.detail).toContain(word);
  });

  it("keeps the rounds that were whole before the file breaks off", () => {
    const { fields, problems } = fieldsFromMap(gpx(track([...sound, a], "Hill") + track(sound)).slice(0, -80));
    expect(fields.map(({ name }) => name)).toEqual(["Hill"]);
    expect(problems).toHaveLength(1);
  });
});

describe("Broken maps", () => {
  const text = fc.oneof(
    anyField.map((ring) => mapOf(feature(polygon(ring), { name: "x" }), feature(multiPolygon([ring], [ring.toReversed()])))),
    anyField.map((ring) => gpx(track([...ring, ring[0]!]))),
  );

  /** Whatever the text, an answer: fields that a scenario takes, or a reason. */
  const holds = (map: string) => {
    const { fields, problems } = fieldsFromMap(map, { storageAt: middle });
    expect(fields.length + problems.length).toBeGreaterThan(0);
    for (const { detail } of problems) expect(detail).toMatch(/^\S.*[.?]$/u);
    for (const { area, rowLength, distance } of fields) {
      expect(measured("fields[].area").safeParse(area).success).toBe(true);
      expect(measured("fields[].distance").safeParse(distance).success).toBe(true);
      if (rowLength !== undefined) expect(measured("fields[].rowLength").safeParse(rowLength).success).toBe(true);
    }
  };

  it("give an answer when they are cut, or a piece of them is put elsewhere", () => {
    fc.assert(fc.property(text, fc.nat(), fc.nat(), fc.nat({ max: 40 }), (map, from, to, length) => {
      const [start, place] = [from % map.length, to % map.length];
      holds(map.slice(0, start));
      holds(map.slice(0, place) + map.slice(start, start + length) + map.slice(place));
    }), runs(1000));
  });

  it("that are no JSON are found out, and no others", () => {
    const piece = fc.constantFrom("{", "}", "[", "]", ",", ":", "\"a\"", "1", "-0.5e3", "01", "tru", "true", " ", "\n", "\"\\u12\"", "\"", "\\");
    const cut = fc.tuple(fc.json(), fc.nat(), piece).map(([json, at, put]) => json.slice(0, at % json.length) + put + json.slice(at % json.length));
    fc.assert(fc.property(fc.oneof(fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join("")), fc.json(), cut), (json) => {
      const sound = (() => { try { JSON.parse(json); return true; } catch { return false; } })();
      expect(brokenAt(json) === null).toBe(sound);
      expect(brokenAt(json) ?? 0).toBeLessThanOrEqual(json.length);
    }), runs(2000));
  });

  it("give an answer when the shapes are anything at all", () => {
    const number = fc.oneof(fc.double(), fc.integer({ min: -200, max: 200 }), fc.constantFrom(8.3, 8.301, 8.302), fc.constantFrom(52.1, 52.101));
    const near = fc.tuple(fc.constantFrom(8.3, 8.301, 8.302, 8.303), fc.constantFrom(52.1, 52.101, 52.102));
    const ring = fc.array(fc.oneof(near, near, near, near, near, near, fc.array(number, { maxLength: 3 })), { maxLength: 8 });
    const geometry = fc.oneof(
      fc.record({ type: fc.constant("Polygon"), coordinates: fc.array(ring, { maxLength: 3 }) }),
      fc.record({ type: fc.constant("MultiPolygon"), coordinates: fc.array(fc.array(ring, { maxLength: 2 }), { maxLength: 3 }) }),
      fc.jsonValue(),
    );
    fc.assert(fc.property(fc.array(geometry, { maxLength: 4 }), fc.jsonValue(), (geometries, properties) => {
      holds(JSON.stringify({ type: "FeatureCollection", features: geometries.map((shape) => ({ type: "Feature", properties, geometry: shape })) }));
    }), runs(1000));
    fc.assert(fc.property(fc.jsonValue(), (anything) => holds(JSON.stringify({ type: "FeatureCollection", features: anything }))), runs(500));
  });
});
