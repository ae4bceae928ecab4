import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fileName, tableText } from "../../viz/table.ts";
import { runs } from "../scenario/generated.ts";

/** Lines of a saved table without the mark in front. */
const linesOf = (text: string) => text.replace("\ufeff", "").split("\r\n").slice(0, -1);

describe("a table saved from the page", () => {
  it("has its figures as numbers without the commas between thousands, and its clocks and words as they stand", () => {
    const text = tableText(["Time", "Tipped, t"], [["10:24", "1,350"], ["-", "-3.5"], ["12,5 t", ""]]);
    expect(linesOf(text)).toEqual(["Time,\"Tipped, t\"", "10:24,1350", "'-,-3.5", "\"12,5 t\","]);
  });

  it("has no cell that a spreadsheet would reckon, whatever machines and storages are called", () => {
    fc.assert(fc.property(fc.string({ maxLength: 12 }), fc.constantFrom("=", "+", "-", "@", "\t", "\r"), (name, sign) => {
      const cell = linesOf(tableText(["Machine"], [[`${sign}x${name.replaceAll(/[\r\n]/g, "")}`]]))[1]!;
      expect(cell.replace(/^"/, "").startsWith("'")).toBe(true);
    }), { numRuns: runs(100, 1000) });
  });
});

describe("the name of a saved file", () => {
  it("is made of letters, figures and hyphens of plan and picture, whatever they are called", () => {
    expect(fileName("Low Meadow, day one", "Tipped and packed", "svg")).toBe("low-meadow-day-one-tipped-and-packed.svg");
    fc.assert(fc.property(fc.string(), fc.string(), (plan, picture) => {
      expect(fileName(plan, picture, "csv")).toMatch(/^[\p{L}\p{N}-]+\.csv$/u);
    }), { numRuns: runs(100, 1000) });
  });
});
