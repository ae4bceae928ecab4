import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { CrewSearch } from "../../sim/study/crew.ts";
import type { Fixes } from "../../sim/study/fixes.ts";
import { clampside as runIn, type Ran } from "../cli/run.ts";
import { BUILDING_MS, buildHouse, type BuiltHouse } from "../server/built.ts";
import { newFolder } from "../temporary.ts";

const folder = newFolder();
const MEADOW = join(folder, "meadow.yaml");
const SEARCHED = join(folder, "searched.yaml");
const MILLION = join(folder, "million.yaml");
/** The worked example with a small field: quick to rehearse. */
const DAY = readFileSync("scenarios/low-meadow.yaml", "utf8").replace("area: 14 ha", "area: 4 ha");
const search = (text: string) => `${DAY}search:\n${text}\n`;
writeFileSync(MEADOW, DAY);
writeFileSync(SEARCHED, search(`  trucks: {from: 4, to: 5}
  tractors: {from: 1, to: 2, list: [{name: Heavy, mass: 24 t, cost: 120 per h, count: 2}, {name: Hired light, mass: 12 t, cost: 70 per h}]}
  targets: {finishBy: "10:00"}`));
writeFileSync(MILLION, search("  trucks: {from: 1, to: 500}\n  tractors: {from: 0, to: 40, list: [{mass: 20 t, count: 40}]}\n  layers: [10 cm, 12 cm, 15 cm]\n  rules: [hold, bury, ease]\n  pace: [80 %, 90 %, 100 %, 110 %, 120 %, 130 %]"));

let house: BuiltHouse;
beforeAll(() => { house = buildHouse(); }, BUILDING_MS);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  house?.remove();
});
const clampside = (...words: string[]): Promise<Ran> => runIn(house, ...words);
const isPage = (text: string, ...parts: string[]) => {
  for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
  expect(text).not.toContain("\u001b");
  for (const part of parts) expect(text).toContain(part);
};

describe("The commands that study", () => {
  it("print one JSON document and nothing else, the same bytes on one thread and on two", async () => {
    const onBoth = async (...words: string[]) => {
      const [one, two] = await Promise.all(["1", "2"].map((threads) => clampside(...words, "--json", "--threads", threads)));
      expect(one).toMatchObject({ code: 0, stderr: "" });
      expect(two!.stdout).toBe(one!.stdout);
      return JSON.parse(one!.stdout) as unknown;
    };
    const fixes = (await onBoth("fixes", MEADOW, "--rehearsals", "3")) as Fixes;
    for (const row of fixes.rows) expect(row.effects !== null || row.why !== null, row.id).toBe(true);
    expect(fixes.rows.filter(({ does }) => does === "nothing").every(({ why }) => typeof why === "string" && why.length > 20)).toBe(true);
    const sought = (await onBoth("crewup", SEARCHED, "--sure", "0.7")) as CrewSearch;
    expect(sought.guarantee).toContain("70 % of days");
    expect((sought.chosen ?? sought.nearest!.plan).tractors).not.toBeNull();
  });

  it("write pages of 80 columns that say what they found", async () => {
    const compared = await clampside("compare", MEADOW, "scenarios/contractor-corn-day-fixed.yaml", "scenarios/contractor-corn-day-living.yaml", "--rehearsals", "5");
    isPage(compared.stdout, "Side by side", "B instead of A", "C instead of A", "C has another crop to bring in");
    const fixed = await clampside("fixes", MEADOW, "--rehearsals", "4", "--units", "us");
    isPage(fixed.stdout, "Helps", "Does nothing, and why", "One unit more of each", "Who can be sent home", "Cautions", "lb/ft3");
    const sought = await clampside("crewup", SEARCHED, "--sure", "0.8");
    isPage(sought.stdout, "What is promised", "closed by 10:00");
  });

  it("refuse wrong use and what cannot be searched with 2, a sentence on standard error and nothing on standard output", async () => {
    const wrong: readonly (readonly [string[], RegExp])[] = [
      [["compare", MEADOW], /2 to 6 scenarios, not 1/u], [["fixes", MEADOW, "--rehearsals", "0"], /whole number from 1/u],
      [["crewup", SEARCHED, "--sure", "1"], /above 0 and below 1/u], [["crewup", MILLION], /1,107,000 plans; up to 2,000/u],
    ];
    const runs = await Promise.all(wrong.map(([words]) => clampside(...words)));
    runs.forEach(({ code, stdout, stderr }, i) => {
      expect(code, stderr).toBe(2);
      expect(stdout).toBe("");
      expect(stderr).toMatch(wrong[i]![1]);
    });
  });
});
