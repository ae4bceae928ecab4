import { parse } from "yaml";
import { describe, expect, it } from "vitest";
import { checkScenario } from "../../sim/scenario/read.ts";
import { plansOf } from "../../sim/study/plans.ts";
import { asksMass, rangesOf, searchOf } from "../../viz/change/ranges.ts";
import type { Document } from "../../viz/document.ts";
import { exampleText } from "../scenarios/example.ts";

const checked = (document: Document) => {
  const read = checkScenario(document);
  if ("problems" in read) throw new Error(JSON.stringify(read.problems));
  return read.scenario;
};
const corn = parse(exampleText("contractor-corn-day")) as Document;
const begun = rangesOf(checked(corn), corn, "metric");
const searched = (document: Document, part: Partial<typeof begun>): Document => ({ ...document, search: searchOf(checked(document), document, { ...rangesOf(checked(document), document, "metric"), ...part }, "metric") });
const mostTractors = (document: Document) => Math.max(...plansOf(checked(document)).map(({ scenario }) => scenario.storages[0]!.tractors.length));

describe("the ranges of a crew search", () => {
  it("can be widened and changed after a first search: the tractors that the sheet wrote into the plan are its own, and follow", () => {
    const once = searched(corn, { tractorsTo: 3 });
    const twice = searched(once, { tractorsTo: 5, mass: 24 });
    expect(mostTractors(twice)).toBe(mostTractors(once) + 2);
    expect(asksMass(checked(twice), twice)).toBe(true);
    expect(rangesOf(checked(twice), twice, "metric")).toEqual({ ...begun, tractorsTo: 5, mass: 24 });
    const heaviest = plansOf(checked(twice)).flatMap(({ scenario }) => scenario.storages[0]!.tractors.map(({ mass }) => mass));
    expect(Math.max(...heaviest)).toBe(24_000);
  });

  it("leave the tractors that a file lists as they are, and ask for no mass then", () => {
    const listed: Document = { ...corn, search: { tractors: { from: 1, to: 2, list: [{ name: "Hired", mass: "18 t", cost: "90 per h", count: 2 }] } } };
    expect(asksMass(checked(listed), listed)).toBe(false);
    expect((searched(listed, { mass: 30 }).search as { readonly tractors: { readonly list: unknown } }).tractors.list).toEqual([{ name: "Hired", mass: "18 t", cost: "90 per h", count: 2 }]);
  });
});
