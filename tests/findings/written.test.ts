/** One way of writing figures in everything that the engine says: thousands set apart, as in the tables. */
import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { BEHIND_RULES, WEDGE_ROOMS } from "../../sim/scenario/types.ts";
import { example, exampleNames } from "../scenarios/example.ts";

/** Every text of a document with its place; what was written by the user, and what names a work in print, stands aside. */
function texts(value: unknown, path = ""): [string, string][] {
  if (typeof value === "string") return [[path, value]];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => (["source", "hash", "name", "defaults"].includes(key) ? [] : texts(inner, `${path}/${key}`)));
}

/** A quantity of four digits and more without a mark between them. */
const UNMARKED = /(?<![\d.,])\d{4,}(?:\.\d+)? (?:kg|t|m|m2|m3|ha|L|h|min|kWh|EUR|USD|days|loads|head|rehearsals|people|times)\b/u;
/** Words as only the file has them: two in one, or choices tied by a dash. */
const KEY = new RegExp(`\\b(?:[a-z]{2,}[A-Z][a-z]+|${[...BEHIND_RULES, ...WEDGE_ROOMS].filter((word) => word.includes("-")).join("|")})\\b`, "u");

describe("What the engine says of a day", () => {
  it.each(exampleNames)("of %s has its thousands set apart and no word that only the file has", (name) => {
    const said = texts(rehearse(example(name), { rehearsals: 2 }).findings);
    expect(said.length).toBeGreaterThan(50);
    for (const [path, text] of said) expect(text, path).not.toMatch(UNMARKED);
    const sentences = said.filter(([path]) => /\/(headline|text|note|notes\/\d+|inWords|gapInWords|[a-z]+InWords)$/u.test(path));
    expect(sentences.length).toBeGreaterThan(10);
    for (const [path, text] of sentences) expect(text, path).not.toMatch(KEY);
  });
});
