import { parse } from "yaml";
import { describe, expect, it } from "vitest";
import { checkScenario } from "../../sim/scenario/read.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { remediesFor } from "../../sim/study/remedies.ts";
import { changedDocument } from "../../viz/change/apply.ts";
import type { Document } from "../../viz/document.ts";
import { exampleNames, exampleText } from "../scenarios/example.ts";

function checked(document: Document): Scenario {
  const read = checkScenario(document);
  if ("problems" in read) throw new Error(JSON.stringify(read.problems));
  return read.scenario;
}

/** Numbers to six figures: a quantity that was written in a reader's unit is rounded there. */
const rounded = (value: unknown): unknown => JSON.parse(JSON.stringify(value, (_, each: unknown) => (typeof each === "number" ? Number(each.toPrecision(6)) : each)));

describe.each(exampleNames)("a remedy for %s, made to its document", (name) => {
  const document = parse(exampleText(name)) as Document;
  const before = checked(document);

  it.each(remediesFor(before).remedies.map((remedy) => [remedy.id, remedy] as const))("is the plan that was rehearsed: %s", (_, remedy) => {
    const after = remedy.apply(before);
    expect(rounded(checked(changedDocument(document, before, after, "metric")))).toEqual(rounded(after));
  });
});
