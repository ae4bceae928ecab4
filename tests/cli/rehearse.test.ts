import { readFileSync, rmSync, writeFileSync, existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { Findings } from "../../sim/findings/types.ts";
import { readLog } from "../../sim/harvest/log.ts";
import { buildHouse } from "../server/built.ts";
import { newFolder } from "../temporary.ts";
import { clampside as runIn } from "./run.ts";

const MEADOW = "scenarios/low-meadow.yaml";
const folder = newFolder();
const house = buildHouse();
const clampside = (...words: string[]) => runIn(house, ...words);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  house.remove();
});

describe.concurrent("clampside rehearse", () => {
  it("prints one JSON document and nothing else with --json, the same bytes each time, and other bytes with another seed", async () => {
    const [first, again, other] = await Promise.all([
      clampside("rehearse", MEADOW, "--json", "--rehearsals", "5"),
      clampside("rehearse", MEADOW, "--json", "--rehearsals", "5"),
      clampside("rehearse", MEADOW, "--json", "--rehearsals", "5", "--seed", "2"),
    ]);
    expect(first.code).toBe(0);
    expect(first.stderr).toBe("");
    const findings = JSON.parse(first.stdout) as Findings;
    expect(findings.rehearsals).toBe(5);
    expect(findings.measures.delivered!.unit).toBe("t");
    expect(again.stdout).toBe(first.stdout);
    expect(other.stdout).not.toBe(first.stdout);
  });

  it("rehearses the rest of a day from how things stand, on a page that fits, and says in one line what is wrong with a state and where", async () => {
    const noon = ["rehearse", MEADOW, "--from", "scenarios/now/low-meadow-noon.yaml", "--rehearsals", "2"];
    const bad = join(folder, "now.yaml");
    writeFileSync(bad, "at: \"13:10\"\napron: 80 ha\n");
    const [page, json, wrong] = await Promise.all([clampside(...noon), clampside(...noon, "--json"), clampside("rehearse", MEADOW, "--from", bad)]);
    expect((JSON.parse(json.stdout) as Findings).rest).toMatchObject({ from: "13:10", fields: [{ name: "Long Strip" }] });
    for (const heading of ["The rest of the day, from 13:10", "When to stop", "Who can go home", "Taken as"]) expect(page.stdout).toContain(heading);
    for (const line of page.stdout.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
    expect([wrong.code, wrong.stdout]).toEqual([2, ""]);
    expect(wrong.stderr).toMatch(/now\.yaml:2:1: apron is "80 ha": ha is the unit of an area/u);
  });

  it("gives every measure its source, and no measure that is not a number", async () => {
    const { stdout } = await clampside("rehearse", MEADOW, "--json", "--rehearsals", "3");
    const findings = JSON.parse(stdout) as Findings;
    expect(Object.keys(findings.sources).sort()).toEqual(Object.keys(findings.measures).sort());
    for (const measure of Object.values(findings.measures)) for (const value of [measure.mean, measure.sd, measure.low, measure.high, measure.p10, measure.p90]) expect(value).toEqual(expect.any(Number));
  });

  it("writes a page that fits 80 columns, without a colour where nobody sees one", async () => {
    for (const system of ["metric", "us"]) {
      const { code, stdout } = await clampside("rehearse", MEADOW, "--rehearsals", "3", "--units", system);
      expect(code).toBe(0);
      expect(stdout).not.toContain("\u001b");
      for (const line of stdout.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
      expect(stdout).toContain(system === "us" ? "lb DM/ft3" : "kg DM/m3");
      // Figures stand one under another, however long a label is.
      const rows = stdout.slice(stdout.indexOf("The day in figures"), stdout.indexOf("Stored in")).split("\n").filter((line) => /^ {2}.*\d/u.test(line) && !/sure|closed at/u.test(line));
      expect(rows.length).toBeGreaterThan(20);
      for (const row of rows) expect(row).toMatch(/^.{32} *[\d,.]+(?<=^.{39})(?: |$)/u);
      // What closing takes, and what machines do in words: a sentence may stand on two lines.
      const page = stdout.replaceAll(/\n +/g, " ");
      expect(page).toMatch(system === "us" ? /It lies on [\d,]+ ft2 of floor, with [\d,]+ ft2 under the sky: [\d,]+ ft2 of film/u : /It lies on [\d,]+ m2 of floor, with [\d,]+ m2 under the sky: [\d,]+ m2 of film/u);
      expect(page).toContain("driving loaded");
      expect(page).not.toMatch(/loaded-road|in-line|scale-line/u);
    }
  });

  it("writes the day with the median finish as a log that can be read back, and leaves no draft beside it", async () => {
    const path = join(folder, "day.jsonl");
    const { code, stdout } = await clampside("rehearse", MEADOW, "--json", "--rehearsals", "5", "--log", path);
    expect(code).toBe(0);
    const { header, day } = readLog(readFileSync(path, "utf8"));
    const findings = JSON.parse(stdout) as Findings;
    expect(header.scenario).toEqual(findings.scenario);
    expect(header.rehearsal).toBeLessThan(5);
    expect(day.trips.length).toBeGreaterThan(20);
    expect(day.states!.time.length).toBeGreaterThan(day.trips.length);
    expect(readdirSync(folder).filter((name) => name.includes("part"))).toEqual([]);
  });

  it("says in a sentence that a log cannot be written, ends with 1, and prints no findings", async () => {
    const path = join(folder, "no such folder", "day.jsonl");
    const { code, stdout, stderr } = await clampside("rehearse", MEADOW, "--json", "--rehearsals", "1", "--log", path);
    expect(code).toBe(1);
    expect(stdout).toBe("");
    expect(stderr).toContain("cannot be written");
    expect(existsSync(path)).toBe(false);
  });

  it("refuses wrong use with 2, a sentence on standard error and nothing on standard output", async () => {
    const unsound = join(folder, "unsound.yaml");
    writeFileSync(unsound, readFileSync(MEADOW, "utf8").replace("area: 14 ha", "area: -14 ha"));
    const wrong = [["--rehearsals", "0"], ["--rehearsals", "many"], ["--seed", "-1"], ["--units", "cubits"], ["--nonsense"]];
    const runs = await Promise.all([...wrong.map((words) => clampside("rehearse", MEADOW, ...words)), clampside("rehearse", unsound), clampside("rehearse", "scenarios")]);
    for (const { code, stdout, stderr } of runs) {
      expect(code, stderr).toBe(2);
      expect(stdout).toBe("");
      expect(stderr.trim()).not.toBe("");
    }
  });
});
