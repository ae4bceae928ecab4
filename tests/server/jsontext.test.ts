import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { deeperThan, parseJson } from "../../server/jsontext.ts";
import { Refusal } from "../../server/problems.ts";

/** Depth by walking the value: the slow way, to hold the quick one against. */
const depthOf = (value: unknown): number =>
  typeof value === "object" && value !== null ? 1 + Math.max(0, ...Object.values(value).map(depthOf)) : 0;

describe("reading JSON from strangers", () => {
  it("knows how deep a text goes without walking it, brackets inside strings left out", () => {
    fc.assert(fc.property(fc.jsonValue({ maxDepth: 6 }), fc.integer({ min: 0, max: 8 }), (value, most) => {
      expect(deeperThan(JSON.stringify(value), most)).toBe(depthOf(value) > most);
    }), { numRuns: 500 });
  });

  it("refuses a million brackets without parsing them", () => {
    expect(() => parseJson("[".repeat(1_000_000), 24)).toThrow(/deeper than 24/);
  });

  it("says where the text breaks and quotes nothing of it", () => {
    const broken = () => parseJson("{\"scenario\": {\n  \"secret\" \"word\"}}", 24);
    expect(broken).toThrow(Refusal);
    expect(broken).toThrow(/line 2, column 12/);
    expect(broken).not.toThrow(/secret|word/);
  });
});
