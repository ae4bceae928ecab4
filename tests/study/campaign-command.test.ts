/** `clampside campaign`: the page, the document, and what it is told where a file cannot be used. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Campaigns } from "../../sim/study/campaigns.ts";
import { clampside as runIn, type Ran } from "../cli/run.ts";
import { BUILDING_MS, buildHouse, type BuiltHouse } from "../server/built.ts";
import { newFolder } from "../temporary.ts";

const EXAMPLE = "scenarios/campaign/corn-two-weeks.yaml";
const folder = newFolder();
const written = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const TEXT = readFileSync(EXAMPLE, "utf8");

let house: BuiltHouse;
beforeAll(() => { house = buildHouse(); }, BUILDING_MS);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  house?.remove();
});
const clampside = (...words: string[]): Promise<Ran> => runIn(house, ...words);

describe("The command for campaigns", () => {
  it("writes a page of 80 columns about the worked example, the answer first", async () => {
    const { code, stdout, stderr } = await clampside("campaign", EXAMPLE, "--campaigns", "3");
    expect([code, stderr]).toEqual([0, ""]);
    for (const line of stdout.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
    const parts = ["When to start", "Started on 2026-09-15", "Day by day", "Stored in North bunker", "Stored in South bunker", "Starts that were tried", "Assumed", "published"];
    const places = parts.map((part) => stdout.indexOf(part));
    expect(places.every((place) => place >= 0)).toBe(true);
    // The days are those of one campaign, and what lies in the end is of all of them.
    expect(stdout).toMatch(/Stored in North bunker, .*\n {2}In the mean of 3 campaigns [\d,]+ t fresh/u);
    expect(places.slice(0, 6)).toEqual([...places.slice(0, 6)].sort((a, b) => a - b));
  });

  it("prints one document and nothing else, the same bytes each time, whose days add up", async () => {
    const [once, again] = await Promise.all([1, 2].map(() => clampside("campaign", EXAMPLE, "--campaigns", "2", "--seed", "4", "--json")));
    expect(once).toMatchObject({ code: 0, stderr: "" });
    expect(again!.stdout).toBe(once!.stdout);
    const { shown, window, chance } = JSON.parse(once!.stdout) as Campaigns;
    for (const day of shown.days) expect(day.fields.reduce((sum, { freshT }) => sum + freshT, 0)).toBeCloseTo(day.freshT, 6);
    expect(window.inside + window.tooWet + window.tooDry).toBeCloseTo(1, 9);
    expect(chance.allIn).toBe(1);
  });

  it("goes to a second farm after the first", async () => {
    const { code, stdout } = await clampside("campaign", EXAMPLE, "scenarios/low-meadow.yaml", "--campaigns", "1");
    expect(code).toBe(0);
    expect(stdout).toContain("Corn over two weeks, then Low Meadow, day one");
    expect(stdout).toContain("Low Meadow, day one: Long Strip");
  });

  it.each([
    ["no campaign in the file", () => ["scenarios/low-meadow.yaml"], /"Low Meadow, day one" says nothing of a campaign: .* campaign: \{starts: 2026-09-14\}/u],
    ["a day that is none", () => [written("day.yaml", TEXT.replace("2026-09-15", "2026-09-31"))], /day\.yaml:\d+:\d+: campaign\.starts is "2026-09-31": a day of the calendar/u],
    ["rain before the campaign", () => [written("rain.yaml", TEXT.replace("rain: 15 %", "rain: [2026-08-01]"))], /campaign\.rain\[0\] is "2026-08-01", outside the campaign/u],
  ])("with %s ends with code 2, a sentence on standard error and nothing on standard output", async (_, words, says) => {
    const { code, stdout, stderr } = await clampside("campaign", ...words());
    expect([code, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(says);
  });
});
