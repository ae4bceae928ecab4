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

  it("measures the road from a gate, of all fields or of one by its name, and says when a gate opens nothing", async () => {
    const road = async (...gates: string[]) => {
      const { code, stdout: out, stderr: err } = await clampside(["fields", FARM, "--storage", "52.105, 8.285", "--road-factor", "1", ...gates.flatMap((gate) => ["--gate", gate]), "--json"]);
      const { fields } = JSON.parse(out) as { fields: { distance: string }[] };
      return { code, err, roads: fields.map(({ distance }) => parseFloat(distance)) };
    };
    const [plain, all, one, strange] = await Promise.all([road(), road("52.105, 8.285"), road("52.1, 8.29", "Pond Field=52.105, 8.285"), road("Pound Field=52.1, 8.29")]);
    expect(all.roads).toEqual([0, 0, 3.4]);
    expect(one.roads[1]).toBe(0);
    expect([one.roads[0]! > 0, one.roads[0] !== plain.roads[0], one.code]).toEqual([true, true, 0]);
    expect([strange.code, strange.roads, strange.err]).toEqual([2, plain.roads, expect.stringContaining("--gate: the map has no field \"Pound Field\".")]);
    expect((await clampside(["fields", FARM, "--gate", "52.1, 8.29"])).stderr).toContain("only together with where the --storage stands");
    expect((await clampside(["fields", FARM, "--gate", "the lane"])).stderr).toContain("latitude and longitude in degrees would do");
  });

  it("writes US units when asked to, which a scenario takes as the same fields", async () => {
    const [metric, us] = await Promise.all(["metric", "us"].map((units) => clampside(["fields", FARM, "--storage", "52.105, 8.285", "--units", units])));
    expect(us!.stdout).toContain("yield, such as 20 ton/acre");
    const day = parse(readFileSync("scenarios/low-meadow.yaml", "utf8")) as Record<string, unknown>;
    const [a, b] = [metric!, us!].map(({ stdout: out }) => sound(checkScenario({ ...day, fields: (parse(out) as { fields: object[] }).fields.map((field) => ({ yield: "45 t/ha", ...field })) })).fields);
    expect((parse(us!.stdout) as { fields: { area: string }[] }).fields[0]!.area).toMatch(/^34\.4\d+ acre$/u);
    b!.forEach((field, i) => {
      // Five digits of area, four of length, a thousandth of a mile of road.
      expect(Math.abs(field.area / a![i]!.area - 1)).toBeLessThan(1e-4);
      expect(Math.abs(field.rowLength / a![i]!.rowLength - 1)).toBeLessThan(1e-3);
      expect(Math.abs(field.distance - a![i]!.distance)).toBeLessThan(1.61);
    });
  });
});
