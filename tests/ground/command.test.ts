import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { clampsideIn } from "../cli/run.ts";
import { checkScenario, sound } from "../scenario/days.ts";
import { BUILDING_MS, buildHouse, type BuiltHouse } from "../server/built.ts";
import { feature, mapOf, polygon, rectangle } from "./laid.ts";

const FARM = "scenarios/maps/hollow-farm.geojson";

let house: BuiltHouse;
beforeAll(() => { house = buildHouse(); }, BUILDING_MS);
afterAll(() => house?.remove());
const clampside = (words: readonly string[], input?: string) => clampsideIn(house, words, input === undefined ? {} : { input });

describe("clampside fields", () => {
  it("writes the fields of a farm's map so that a scenario takes them, and tells what it left out", async () => {
    const { code, stdout: out, stderr: err } = await clampside(["fields", FARM, "--storage", "52.105, 8.285"]);
    expect(code).toBe(0);
    expect(err).toContain("features[3] is a Point, which has no area: left out.");
    expect(out).toMatch(/^# Still to be written for 2 of 3 fields: yield/u);
    const { fields } = parse(out) as { fields: Record<string, string>[] };
    expect(fields.map(({ name }) => name)).toEqual(["Long Strip", "Pond Field", "Both Sides of the Lane"]);
    const day = parse(readFileSync("scenarios/low-meadow.yaml", "utf8")) as Record<string, unknown>;
    const scenario = sound(checkScenario({ ...day, fields: fields.map((field) => ({ yield: "45 t/ha", ...field })) }));
    // What the map gives goes before what its shape says.
    expect(scenario.fields[2]!.distance).toBe(3400);
    expect(scenario.fields[0]!.area).toBeCloseTo(139_530, -1);
    expect(scenario.fields[0]!.rowLength).toBeCloseTo(418, 0);
  });

  it("takes rows and road factor, and prints one JSON document when asked to", async () => {
    const along = await clampside(["fields", FARM, "--storage", "52.105, 8.285", "--rows", "0", "--road-factor", "1", "--json"]);
    const { fields, problems } = JSON.parse(along.stdout) as { fields: { rowLength: string; distance: string }[]; problems: unknown[] };
    expect([along.code, along.stderr, problems]).toEqual([0, "", []]);
    expect(parseFloat(fields[0]!.rowLength)).toBeCloseTo(334, 0);
    expect(parseFloat(fields[0]!.distance)).toBeCloseTo(0.675, 2);
  });

  it("prints what is of use of a map that is wrong in part, says what was refused and ends with 2", async () => {
    const ring = rectangle({ lat: 52.1, lon: 8.3 }, 0, 300, 200);
    const { code, stdout: out, stderr: err } = await clampside(["fields", "-"], mapOf(feature(polygon([ring[0]!, ring[2]!, ring[1]!, ring[3]!])), feature(polygon(ring), { name: "Good: #1" })));
    expect(code).toBe(2);
    expect(err).toMatch(/^standard input: features\[0\]\.geometry\.coordinates\[0\] crosses or touches itself at 52\.10000 N, 8\.30000 E/u);
    expect((parse(out) as { fields: unknown[] }).fields).toMatchObject([{ name: "Good: #1", area: "6 ha" }]);
    expect((await clampside(["fields", FARM, "--storage", "98, 8"])).stderr).toContain("a latitude lies between -90 and 90");
  });
});
