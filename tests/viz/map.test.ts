import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { Problems } from "../../sim/scenario/problems.ts";
import { checkScenario } from "../../sim/scenario/read.ts";
import { drawnIn } from "../../sim/ground/fields.ts";
import { geometryOf } from "../../sim/ground/geometry.ts";
import { MAP_LIMITS } from "../../sim/ground/limits.ts";
import { areaOf } from "../../sim/ground/measures.ts";
import { outlineOf } from "../../sim/ground/outline.ts";
import { Told } from "../../sim/ground/told.ts";
import { at, put, type Document } from "../../viz/document.ts";
import { roundBelow, rowLines } from "../../viz/map/drawn.ts";
import { placeRead, readMap, rowsAlong, takenAt, withPlot, withoutPlot, type Plot } from "../../viz/map/plots.ts";
import { anyField, closed, feature, gpx, mapOf, polygon, rectangle, track } from "../ground/laid.ts";
import { sound } from "../scenario/days.ts";

const read = (name: string) => readFileSync(new URL(`../../scenarios/${name}`, import.meta.url), "utf8");
const meadow = parse(read("low-meadow.yaml")) as Document;
const standing = put(meadow, ["storage", 0, "at"], "52.105, 8.285");
const farm = readMap(read("maps/hollow-farm.geojson"));
const [strip, pond, both] = farm.plots as [Plot, Plot, Plot];
const plain = { rows: null, gate: "", factor: null };
const field = (document: Document, index: number) => sound(checkScenario(document)).fields[index]!;

describe("a field from a map on the page", () => {
  it("goes into the plan as a new one with its outline, and the check measures there what the page shows", () => {
    const taken = withPlot(standing, pond, null, plain);
    expect(at(taken, ["fields", 1])).toEqual({ name: "Pond Field", yield: at(meadow, ["fields", 0, "yield"]), outline: pond.geometry });
    const checked = field(taken, 1);
    expect(checked.area).toBeCloseTo(pond.area, 3);
    expect(checked.rowLength).toBeCloseTo(rowsAlong(pond, pond.longest), 3);
    expect(takenAt(taken, pond)).toBe(1);
    expect(withoutPlot(taken, pond, null)).toEqual(standing);
  });

  it("runs its rows as the reader says, and its road from the gate by the factor that is given", () => {
    const taken = withPlot(standing, pond, null, { rows: 30, gate: "52.1108, 8.308", factor: 1.5 });
    const other = withPlot(standing, pond, null, { rows: 30, gate: "52.1108, 8.308", factor: 1 });
    expect(field(taken, 1).rowLength).toBeCloseTo(rowsAlong(pond, 30), 3);
    expect(field(taken, 1).distance / field(other, 1).distance).toBeCloseTo(1.5, 6);
  });

  it("goes onto a field that stands in the plan, keeps what that says of other things, and is taken back whole", () => {
    const owned = put(standing, ["fields", 0, "owner"], "Home");
    const taken = withPlot(owned, pond, 0, plain);
    expect(at(taken, ["fields", 0])).toEqual({ name: at(meadow, ["fields", 0, "name"]), yield: at(meadow, ["fields", 0, "yield"]), owner: "Home", outline: pond.geometry });
    expect(withoutPlot(taken, pond, at(owned, ["fields", 0])!)).toEqual(owned);
  });

  it("takes what the map says in words before what its shape says, and never a name twice", () => {
    const taken = withPlot(withPlot(standing, both, null, plain), strip, null, plain);
    expect(field(taken, 1).distance).toBe(3400);
    expect(at(taken, ["fields", 2])).toMatchObject({ name: "Long Strip 2", yield: "45 t/ha" });
    sound(checkScenario(taken));
  });

  it("keeps the written road of a field as long as nobody says where the storage stands", () => {
    const taken = withPlot(meadow, pond, 0, plain);
    expect(at(taken, ["fields", 0, "distance"])).toBe(at(meadow, ["fields", 0, "distance"]));
    expect(field(taken, 0).area).toBeCloseTo(pond.area, 3);
    expect([placeRead("52.1, 8.3"), placeRead({ lat: 52.1, lon: 8.3 }), placeRead("north"), placeRead(undefined)]).toEqual([{ lat: 52.1, lon: 8.3 }, { lat: 52.1, lon: 8.3 }, null, null]);
  });

  it("is understood beside those that are refused, each with its place", () => {
    const ring = rectangle({ lat: 52.1, lon: 8.3 }, 0, 300, 200);
    const crossed = [ring[0]!, ring[2]!, ring[1]!, ring[3]!];
    const { plots, problems } = readMap(mapOf(feature(polygon(crossed), { name: "Bow" }), feature(polygon(ring), { name: "Good" })));
    expect(plots.map(({ name }) => name)).toEqual(["Good"]);
    expect(problems.map(({ detail }) => detail)).toEqual([expect.stringMatching(/features\[0\].*crosses or touches itself at 52\.10000 N, 8\.30000 E/)]);
    expect(readMap(gpx(track([...ring, ring[0]!], "Driven"))).plots[0]).toMatchObject({ name: "Driven", geometry: { type: "Polygon" } });
  });
});

describe("an outline that a plan keeps", () => {
  it("is closed, has up to seven decimals, and is as large as the one it was made from, within what its own rounding can do", () => {
    fc.assert(fc.property(anyField, (ring) => {
      const problems = new Problems("The map");
      const drawn = drawnIn(JSON.stringify(polygon(ring)), problems, new Told())[0]!;
      const outline = outlineOf(drawn, problems, new Told());
      if (!outline) return;
      const { coordinates } = geometryOf(outline) as unknown as { coordinates: [number, number][][] };
      expect(coordinates[0]![0]).toEqual(coordinates[0]!.at(-1));
      for (const degrees of coordinates.flat(2)) expect(Math.abs(degrees * 1e7 - Math.round(degrees * 1e7))).toBeLessThan(1e-4);
      const kept = drawnIn(JSON.stringify(geometryOf(outline)), problems, new Told())[0]!;
      const around = outline.parts[0]!.outer.points.reduce((sum, { x, y }, i, all) => sum + Math.hypot(all[(i + 1) % all.length]!.x - x, all[(i + 1) % all.length]!.y - y), 0);
      // Each corner moves by half the seventh decimal each way, 0.008 m at the most: the area by that along the boundary.
      const after = outlineOf(kept, problems, new Told());
      if (after) expect(Math.abs(areaOf(after) - areaOf(outline))).toBeLessThan(0.008 * around + 0.1);
    }), { numRuns: 50 });
  });

  it("is thinned where a receiver wrote a point every metre, and nothing of it moves by more than half a metre", () => {
    const corners = rectangle({ lat: 52.1, lon: 8.3 }, 20, 400, 300);
    const dense = corners.flatMap((corner, i) => {
      const next = corners[(i + 1) % corners.length]!;
      return Array.from({ length: 200 }, (_, k) => ({ lat: corner.lat + ((next.lat - corner.lat) * k) / 200, lon: corner.lon + ((next.lon - corner.lon) * k) / 200 }));
    });
    const { plots: [plot] } = readMap(mapOf(feature({ type: "Polygon", coordinates: [closed(dense)] })));
    expect((plot!.geometry.coordinates[0] as unknown[]).length).toBeLessThan(MAP_LIMITS.keptPoints);
    expect(Math.abs(plot!.area - 120_000)).toBeLessThan(MAP_LIMITS.kept * 1400);
    expect(plot!.outline.parts[0]!.outer.places.length).toBeGreaterThanOrEqual(4);
  });
});

describe("the drawing of a plot", () => {
  it("has rows as long together as the area over their distance, whichever way they run", () => {
    const ring = rectangle({ lat: 52.1, lon: 8.3 }, 0, 400, 200);
    const { plots: [plot] } = readMap(mapOf(feature(polygon(ring))));
    for (const bearing of [0, 37, 90, 151]) {
      const lines = rowLines(plot!, bearing, 1);
      const whole = lines.reduce((sum, [from, to]) => sum + Math.hypot(to.x - from.x, to.y - from.y), 0);
      expect(Math.abs(whole - 80_000)).toBeLessThan(500);
      for (const [from, to] of lines.slice(2, -2)) expect(Math.abs((to.x - from.x) * Math.cos((bearing * Math.PI) / 180) - (to.y - from.y) * Math.sin((bearing * Math.PI) / 180))).toBeLessThan(1e-6);
    }
  });

  it("stands beside a round length", () => {
    expect([roundBelow(999), roundBelow(500), roundBelow(130), roundBelow(0.3)]).toEqual([500, 500, 100, 0.2]);
  });
});
