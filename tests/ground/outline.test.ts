/** Outlines in a scenario: what is measured on them, where the reader sees it, and what is refused at which place. */
import { copyFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import proj4 from "proj4";
import { afterAll, describe, expect, it } from "vitest";
import { hashOf } from "../../sim/scenario/hash.ts";
import type { MapOf } from "../../sim/scenario/desk.ts";
import type { Checked } from "../../sim/scenario/read.ts";
import { lineBetween } from "../../sim/ground/plane.ts";
import type { Place } from "../../sim/ground/plane.ts";
import { clampsideHere } from "../cli/here.ts";
import { runs } from "../kernel/runs.ts";
import { exampleText } from "../scenarios/example.ts";
import { checkScenario, leastDay, readScenario, sound, unsound } from "../scenario/days.ts";
import { newFolder } from "../temporary.ts";
import { anyField, away, feature, mapOf, multiPolygon, polygon, rectangle } from "./laid.ts";

const MIDDLE: Place = { lat: 52.1, lon: 8.3 };
const STORAGE: Place = away(MIDDLE, 200, 2000);
const written = ({ lat, lon }: Place): string => `${lat.toFixed(9)}, ${lon.toFixed(9)}`;

/** 600 m along 30 degrees, 250 m across. */
const RING = rectangle(MIDDLE, 30, 600, 250);

/** The least day with this as its only field, a storage that knows its place, and the map files that there are. */
function mapped(field: Record<string, unknown>, { maps, at = written(STORAGE) }: { maps?: MapOf; at?: unknown } = {}): Checked {
  const day = leastDay();
  day.fields = [{ name: "Slope", yield: "45 t/ha", ...field }];
  if (at !== "unknown") day.storage[0].at = at;
  return checkScenario(day, maps);
}

const fieldOf = (checked: Checked) => sound(checked).fields[0]!;
const told = (checked: Checked) => ("defaults" in checked ? checked.defaults.filter(({ path }) => path.startsWith("fields[0]")) : []);
const off = (value: number, wanted: number) => Math.abs(value / wanted - 1);

/** m2 on the plane of an equal-area projection of the ellipsoid, about the ring's first corner. */
function projectedArea(ring: readonly Place[]): number {
  const { lat, lon } = ring[0]!;
  const plane = proj4(`+proj=laea +lat_0=${lat} +lon_0=${lon} +x_0=0 +y_0=0 +datum=WGS84 +units=m`);
  const points = ring.map((place) => plane.forward([place.lon, place.lat]));
  return Math.abs(points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return sum + (x! * nextY! - nextX! * y!) / 2;
  }, 0));
}

describe("A field's outline in a scenario", () => {
  it("gives the area, the rows along the longest side and the road from the middle, and shows all three with their mark", () => {
    const checked = mapped({ outline: polygon(RING) });
    const field = fieldOf(checked);
    expect(off(field.area, 150_000)).toBeLessThan(1e-5);
    expect(off(field.rowLength, 600)).toBeLessThan(1e-4);
    expect(off(field.distance, 2400)).toBeLessThan(1e-4);
    expect(told(checked)).toEqual([
      { path: "fields[0].roadFactor", value: "1.2", mark: "published" },
      { path: "fields[0].outline", value: "15.00 ha, rows of 600 m, 2.40 km by road from its middle", mark: "measured on the map" },
    ]);
  });

  it("is within 0.1 % of the area that an equal-area projection of the ellipsoid gives, at every latitude", () => {
    fc.assert(fc.property(anyField, (ring) => {
      expect(off(fieldOf(mapped({ outline: polygon(ring), distance: "2 km", rowLength: "300 m" })).area, projectedArea(ring))).toBeLessThan(1e-4);
    }), runs(250));
  });

  it("says the same whatever the ring's first point and whichever way round it runs", () => {
    fc.assert(fc.property(anyField, fc.nat(), fc.boolean(), (ring, turn, back) => {
      const cut = turn % ring.length;
      const other = [...ring.slice(cut), ...ring.slice(0, cut)];
      if (back) other.reverse();
      const [one, two] = [ring, other].map((each) => fieldOf(mapped({ outline: polygon(each), gate: written(ring[0]!), roadFactor: 1 }, { at: written(away(ring[0]!, 10, 3000)) })));
      for (const key of ["area", "rowLength", "distance"] as const) expect(off(one![key], two![key]), key).toBeLessThan(1e-4);
    }), runs(100));
  });

  it("goes behind what the file gives: each figure that is written stays as written", () => {
    const checked = mapped({ outline: polygon(RING), area: "14 ha", rowLength: "500 m", distance: "3 km" });
    expect(fieldOf(checked)).toMatchObject({ area: 140_000, rowLength: 500, distance: 3000 });
    expect(told(checked)).toEqual([]);
  });

  it("is crossed by rows that run as the field says", () => {
    expect(off(fieldOf(mapped({ outline: polygon(RING), rows: "120 deg" })).rowLength, 250)).toBeLessThan(1e-3);
  });

  it("may have a gate and a road factor of its own, and a place may be a group of two numbers", () => {
    const gate = away(MIDDLE, 30, 300);
    const checked = mapped({ outline: feature(polygon(RING)), gate, roadFactor: 1.5 }, { at: STORAGE });
    expect(off(fieldOf(checked).distance, 1.5 * lineBetween(gate, STORAGE).length)).toBeLessThan(1e-6);
    expect(told(checked).map(({ path }) => path)).toEqual(["fields[0].gate", "fields[0].outline"]);
  });

  it("is not needed for a road: a gate will do", () => {
    expect(off(fieldOf(mapped({ area: "15 ha", rowLength: "600 m", gate: written(MIDDLE) })).distance, 2400)).toBeLessThan(1e-6);
  });

  it("may have several parts and holes, which count as one field", () => {
    const [east, hole] = [rectangle(away(MIDDLE, 120, 400), 30, 600, 200), rectangle(MIDDLE, 30, 100, 50)];
    expect(off(fieldOf(mapped({ outline: multiPolygon([RING, hole], [east]) })).area, 150_000 - 5_000 + 120_000)).toBeLessThan(1e-5);
  });

  it("leads to the first storage that the field names", () => {
    const day = leastDay();
    day.storage = [{ ...day.storage[0], name: "Near", at: written(STORAGE) }, { ...day.storage[0], name: "Far", at: written(away(MIDDLE, 0, 5000)) }];
    day.packing.tractors = [{ name: "A", mass: "14 t", spreads: "220 t/h" }, { name: "B", mass: "14 t", spreads: "220 t/h" }];
    [day.storage[0].tractors, day.storage[1].tractors] = [["A"], ["B"]];
    day.fields = [{ yield: "45 t/ha", outline: polygon(RING), storage: ["Far", "Near"] }];
    expect(off(fieldOf(checkScenario(day)).distance, 6000)).toBeLessThan(1e-4);
  });

  const bowTie = [RING[0]!, RING[2]!, RING[1]!, RING[3]!];
  const turned = RING.map(({ lat, lon }) => ({ lat: lon, lon: lat }));
  it.each([
    ["a ring that crosses itself", { outline: polygon(bowTie) }, "/fields/0/outline/coordinates/0", /^fields\[0\]\.outline\.coordinates\[0\] crosses or touches itself at 52\.10000 N, 8\.30000 E/u],
    ["metres of another system", { outline: { type: "Polygon", coordinates: [[[452000, 5772000], [452300, 5772000], [452300, 5772200], [452000, 5772000]]] } }, "/fields/0/outline/coordinates/0/0", /another reference system/u],
    ["another crs", { outline: { ...polygon(RING), crs: { type: "name", properties: { name: "urn:ogc:def:crs:EPSG::25832" } } } }, "/fields/0/outline/crs", /EPSG::25832.*WGS84/u],
    ["turned coordinates", { outline: polygon(turned) }, "/fields/0/outline", /gives a road of .* km, where up to 200 km would do; in GeoJSON longitude comes first\.$/u],
    ["a point", { outline: { type: "Point", coordinates: [8, 52] } }, "/fields/0/outline/type", /is "Point": Polygon, MultiPolygon or Feature would do/u],
    ["a feature without a geometry", { outline: feature(null) }, "/fields/0/outline", /has no area/u],
    ["a ring of two points", { outline: polygon(RING.slice(0, 2)) }, "/fields/0/outline/coordinates/0", /needs three/u],
    ["a number", { outline: 7 }, "/fields/0/outline", /is 7: a GeoJSON Polygon/u],
    ["no outline and no area", { distance: "2 km" }, "/fields/0/area", /^fields\[0\]\.area is missing: an area takes m2, ha or acre, over 0 ha and up to 5000 ha\.$/u],
    ["no outline, gate or distance", { area: "3 ha" }, "/fields/0/distance", /^fields\[0\]\.distance is missing: /u],
    ["rows without an outline", { area: "3 ha", distance: "2 km", rows: "30 deg" }, "/fields/0/rows", /no outline to lay rows across: leave it out/u],
    ["rows beside a rowLength", { outline: polygon(RING), rowLength: "600 m", rows: "30 deg" }, "/fields/0/rows", /the rowLength is given: leave it out/u],
    ["a road factor beside a distance", { outline: polygon(RING), distance: "2 km", roadFactor: 1.3 }, "/fields/0/roadFactor", /the distance is given/u],
    ["a road shorter than the straight line", { outline: polygon(RING), roadFactor: 0.9 }, "/fields/0/roadFactor", /from 1 to 10/u],
    ["a gate beyond the pole", { outline: polygon(RING), gate: "98, 8" }, "/fields/0/gate", /latitude lies between -90 and 90/u],
    ["a map file, where none is read", { outline: "farm.geojson#Slope" }, "/fields/0/outline", /read by the command line only; put the outline itself here/u],
  ])("with %s is refused at its place", (_what, field, pointer, says) => {
    const [problem, ...others] = unsound(mapped(field));
    expect([problem!.pointer, others]).toEqual([pointer, []]);
    expect(problem!.detail).toMatch(says);
  });

  it("gives no road where nobody says where the storage stands", () => {
    const [problem] = unsound(mapped({ outline: polygon(RING) }, { at: "unknown" }));
    expect(problem).toMatchObject({ pointer: "/fields/0/distance", detail: expect.stringContaining("say where storage[0] stands") });
  });

  it("never breaks the check, whatever stands in its place", () => {
    fc.assert(fc.property(fc.jsonValue({ maxDepth: 5 }), fc.constantFrom("Polygon", "MultiPolygon", "Feature"), (value, type) => {
      for (const outline of [value, { type, coordinates: value }, { type: "Feature", geometry: { type, coordinates: value } }]) {
        for (const { pointer, detail } of unsound(mapped({ outline }))) {
          expect(pointer).toMatch(/^\/fields\/0\/outline/u);
          // The place stands first, but for a key that no group may have.
          expect(detail).toMatch(/^(?:There is no key "(?:__proto__|constructor|prototype)" in )?fields\[0\]\.outline[^\p{Cc}]*[.?]$/u);
        }
      }
    }), runs(1000));
  });
});

describe("A map file that a scenario names", () => {
  const text = mapOf(feature(polygon(RING), { name: "Slope" }), feature(polygon(bowTieAt(2)), { name: "Bow tie" }), feature(polygon(rectangle(away(MIDDLE, 0, 2000), 0, 200, 100)), { name: "12" }));
  const reads: string[] = [];
  const maps: MapOf = (name) => {
    reads.push(name);
    return name === "farm.geojson" ? text : { wrong: `There is no file ${name}.` };
  };
  const refusal = (outline: string) => unsound(mapped({ outline }, { maps })).map(({ detail }) => detail);

  it("gives the outline of a feature by its name or its number", () => {
    const inline = mapped({ outline: polygon(RING) });
    for (const outline of ["farm.geojson#Slope", "farm.geojson#1", " farm.geojson # Slope "]) expect(mapped({ outline }, { maps })).toEqual(inline);
  });

  it("is read once, however many fields name it", () => {
    reads.length = 0;
    const day = leastDay();
    day.fields = ["A", "B", "C"].map((name) => ({ name, yield: "45 t/ha", distance: "2 km", outline: "farm.geojson#Slope" }));
    sound(checkScenario(day, maps));
    expect(reads).toEqual(["farm.geojson"]);
  });

  it.each([
    ["farm.geojson", /^fields\[0\]\.outline is "farm\.geojson": the map has 3 fields; say which by its number, such as farm\.geojson#1\.$/u],
    ["farm.geojson#Slpoe", /the map has no such field; there are "Slope", "Bow tie" and "12"\.$/u],
    ["farm.geojson#2", /^fields\[0\]\.outline, "farm\.geojson#2": features\[1\]\.geometry\.coordinates\[0\] crosses or touches itself at/u],
    ["other.geojson#1", /^fields\[0\]\.outline, "other\.geojson#1": There is no file other\.geojson\.$/u],
    ["../farm.geojson#1", /the scenario's own folder/u],
    ["/etc/farm.geojson#1", /the scenario's own folder/u],
    ["maps\\farm.geojson#1", /the scenario's own folder/u],
    ["..#1", /the scenario's own folder/u],
    ["", /the scenario's own folder/u],
  ])("as %s is refused with what would do", (outline, says) => {
    const [detail, ...others] = refusal(outline);
    expect(others).toEqual([]);
    expect(detail).toMatch(says);
  });

  const folder = newFolder();
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const check = (file: string) => clampsideHere("check", "--json", join(folder, file));

  it("lies beside the scenario for the command line, and makes the same day as the outlines written into it", async () => {
    copyFileSync("scenarios/maps/hollow-farm.geojson", join(folder, "farm.geojson"));
    const inline = exampleText("mapped-fields");
    const named = inline.replaceAll(/ {4}outline:\n {6}type: (\w+)\n {6}coordinates:.*\n(?: {8}- .*\n)*/gu, (_, type: string) => `    outline: farm.geojson#${type === "Polygon" ? "Long Strip" : "3"}\n`);
    expect(named.match(/^ {4}outline: farm/gmu)).toHaveLength(2);
    writeFileSync(join(folder, "day.yaml"), named);
    const { scenario } = JSON.parse((await check("day.yaml")).stdout) as { scenario: { hash: string } };
    expect(scenario.hash).toBe(hashOf(sound(readScenario(inline))));
    writeFileSync(join(folder, "lost.yaml"), named.replaceAll("farm.geojson#Long", "form.geojson#Long"));
    const { code, stdout, stderr } = await check("lost.yaml");
    expect([code, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/lost\.yaml:10:5: fields\[0\]\.outline, "form\.geojson#Long Strip": There is no file .*form\.geojson\.\n$/u);
  });
});

/** Four corners whose sides cross, so many km north of the middle. */
function bowTieAt(km: number): Place[] {
  const [a, b, c, d] = rectangle(away(MIDDLE, 0, 1000 * km), 30, 600, 250);
  return [a!, c!, b!, d!];
}
