import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hashOf } from "../../sim/scenario/hash.ts";
import type { Checked } from "../../sim/scenario/read.ts";
import { checkScenario, fullDay, leastDay, readScenario } from "./days.ts";
import { brokenDay, brokenText, junk, runs, type Breaking } from "./generated.ts";

const lowMeadow = readFileSync(new URL("../../scenarios/low-meadow.yaml", import.meta.url), "utf8");

/** A problem is a place and a sentence of one printable line; a scenario is finite, frozen and survives JSON. */
function holdsGood(checked: Checked, fromText = false): void {
  if ("problems" in checked) {
    expect(checked.problems.length).toBeGreaterThan(0);
    for (const { pointer, detail, line, column } of checked.problems) {
      expect(pointer).toMatch(/^(\/[^]*)?$/u);
      expect(detail).toMatch(/^[^\p{Cc}\p{Cs}]{8,700}[.?]$/u);
      if (fromText) expect(Math.min(line ?? 0, column ?? 0)).toBeGreaterThanOrEqual(1);
    }
    return;
  }
  const { scenario } = checked;
  expect(Object.isFrozen(scenario)).toBe(true);
  expect(JSON.parse(JSON.stringify(scenario))).toEqual(scenario);
  expect(hashOf(scenario)).toMatch(/^[0-9a-f]{32}$/u);
  const walk = (value: unknown): void => {
    if (typeof value === "number") expect(value).toBeGreaterThanOrEqual(0);
    else if (typeof value === "object" && value !== null) Object.values(value).forEach(walk);
  };
  walk(scenario);
}

/** What is broken, and quarters of the runs: a full day takes three times as long as a short one, and each by itself keeps well within the time of a test. */
const BROKEN: readonly (readonly [string, Breaking, number])[] = [
  ["short day", { days: [leastDay] }, 2], ["full day, with a thing or two wrong,", { days: [fullDay], most: 2 }, 1], ["full day, with more than two things wrong,", { days: [fullDay], fewest: 3 }, 1],
];

// Together 130,000 documents and texts when the long checks are asked for: minutes, not seconds.
describe("whatever comes in", { timeout: 900_000 }, () => {
  it.each(BROKEN)("a broken %s gets its place and a sentence, or is sound", (_, of, quarters) => {
    fc.assert(fc.property(brokenDay(of), (day) => holdsGood(checkScenario(day))), { numRuns: quarters * runs(250, 15_000) });
  });

  it("anything at all gets its place and a sentence", () => {
    fc.assert(fc.property(junk, (document) => holdsGood(checkScenario(document))), { numRuns: runs(1000, 20_000) });
  });

  it.each([["one or two places", { most: 2 }, 2], ["more places", { fewest: 3 }, 3]] as const)("a text broken in %s gets its line, its column and a sentence, or is sound", (_, where, fifths) => {
    fc.assert(fc.property(brokenText(lowMeadow, where), (text) => holdsGood(readScenario(text), true)), { numRuns: fifths * runs(200, 4_000) });
  });

  it("any text gets its line, its column and a sentence", () => {
    fc.assert(fc.property(fc.oneof(fc.string({ maxLength: 300 }), fc.string({ unit: "binary", maxLength: 300 })), (text) => holdsGood(readScenario(text), true)), { numRuns: runs(1000, 20_000) });
  });

  it.each(BROKEN)("a broken %s is told the same from text as from a document", (_, of, quarters) => {
    fc.assert(fc.property(brokenDay(of), (day) => {
      const text = JSON.stringify(day);
      const fromText = readScenario(text);
      const fromDocument = checkScenario(JSON.parse(text));
      // Lone surrogates and the like aside, JSON text and its values are one document.
      if (/\\u[dD][89abAB]/u.test(text)) return;
      if ("problems" in fromDocument) {
        expect("problems" in fromText && fromText.problems.map(({ pointer, detail }) => ({ pointer, detail }))).toEqual(fromDocument.problems);
      } else expect(fromText).toEqual(fromDocument);
    }), { numRuns: quarters * runs(125, 2_500) });
  });
});
