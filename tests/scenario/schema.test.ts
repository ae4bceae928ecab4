import { readdirSync, readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import fc from "fast-check";
import { parse } from "yaml";
import { describe, expect, it } from "vitest";
import { scenarioSchema, scenarioSchemaText } from "../../sim/scenario/schema.ts";
import { checkScenario, fullDay, leastDay } from "./days.ts";
import { brokenDay } from "./generated.ts";

const folder = new URL("../../scenarios/", import.meta.url);
const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(scenarioSchema());

describe("the JSON Schema of a scenario file", () => {
  it("stands in scenarios/ as the code makes it (npm run schema)", () => {
    expect(readFileSync(new URL("scenario.schema.json", folder), "utf8")).toBe(scenarioSchemaText());
  });

  it("passes the least that can be said and all that can be said", () => {
    for (const day of [leastDay(), fullDay()]) expect([validate(day), validate.errors]).toEqual([true, null]);
  });

  it.each(readdirSync(folder).filter((name) => name.endsWith(".yaml")))("passes %s", (name) => {
    const day: unknown = parse(readFileSync(new URL(name, folder), "utf8"));
    expect([validate(day), validate.errors]).toEqual([true, null]);
  });

  it("refuses what has the wrong shape: a bare number, an unknown unit, an unknown key, an empty list", () => {
    const wrong: ((day: Record<string, any>) => void)[] = [
      (day) => { day.fields[0].area = 14; }, (day) => { day.fields[0].area = "14 hectare"; }, (day) => { day.fields[0].size = "14 ha"; },
      (day) => { day.fields = []; }, (day) => { delete day.packing; }, (day) => { day.storage[0].wedge = "steep"; }, (day) => { day.trucks[0].count = 2.5; },
    ];
    for (const change of wrong) {
      const day = leastDay();
      change(day);
      expect(validate(day)).toBe(false);
    }
  });

  it("never refuses what the check passes", () => {
    fc.assert(fc.property(brokenDay(), (day) => {
      if ("scenario" in checkScenario(day)) expect([validate(day), validate.errors]).toEqual([true, null]);
    }), { numRuns: 500 });
  });

  it("describes every key", () => {
    const bare: string[] = [];
    const walk = (node: any, path: string) => {
      for (const [key, entry] of Object.entries<any>(node.properties ?? {})) {
        const target = entry.$ref ? (scenarioSchema().$defs as any)[entry.$ref.split("/").at(-1)] : entry;
        if (!target.description) bare.push(`${path}.${key}`);
        if (!entry.$ref) walk(entry, `${path}.${key}`);
      }
    };
    const schema: any = scenarioSchema();
    walk(schema, "");
    for (const [name, group] of Object.entries<any>(schema.$defs)) walk(group, name);
    expect(bare).toEqual([]);
  });
});
