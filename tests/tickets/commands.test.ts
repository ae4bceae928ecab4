import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readScenario } from "../../sim/scenario/read.ts";
import type { WeighedDay } from "../../sim/study/tickets/study.ts";
import { clampside as runIn, type Ran } from "../cli/run.ts";
import { BUILDING_MS, buildHouse, type BuiltHouse } from "../server/built.ts";
import { newFolder } from "../temporary.ts";

const folder = newFolder();
const place = (name: string) => join(folder, name);
const SCENARIO = "scenarios/tickets/evening-meadow.yaml";
const EVENING = "scenarios/tickets/evening.csv";
const OPEN = place("open.csv");
writeFileSync(OPEN, "Time;Truck;Net\n17:10;A;10,345\n17:20;B;10,210\n");

let house: BuiltHouse;
beforeAll(() => { house = buildHouse(); }, BUILDING_MS);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  house?.remove();
});
const tickets = (...words: string[]): Promise<Ran> => runIn(house, "tickets", ...words);

describe("clampside tickets", () => {
  it("prints one JSON document and nothing else, the same bytes on one thread and on two", async () => {
    const [one, two] = await Promise.all(["1", "2"].map((threads) => tickets(EVENING, SCENARIO, "--json", "--rehearsals", "8", "--threads", threads)));
    expect(one).toMatchObject({ code: 0, stderr: "" });
    expect(two!.stdout).toBe(one!.stdout);
    const { reading, judgement } = JSON.parse(one!.stdout) as WeighedDay;
    expect([reading.rows, reading.tickets + reading.refused.length, judgement.rehearsals]).toEqual([reading.rows, reading.rows, 8]);
  });

  it("prints a page that fits 80 columns, and writes the scenario with what the tickets tell, which is sound and has the weighed load", async () => {
    const path = place("learned.yaml");
    const { code, stdout, stderr } = await tickets(EVENING, SCENARIO, "--rehearsals", "4", "--patch", path);
    expect([code, stderr]).toEqual([0, ""]);
    for (const line of stdout.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
    for (const part of ["Was the model right?", "Recorded beside rehearsed", "What the tickets tell", "What they change in the scenario", "How the file was read"]) expect(stdout).toContain(part);
    const checked = readScenario(readFileSync(path, "utf8"));
    expect("problems" in checked ? checked.problems : checked.scenario.trucks[0]!.load).toBeCloseTo(10_360, -2);
  });

  it("speaks US units on request, and by itself those of the scenario, with the same day in them", async () => {
    const [metric, us] = await Promise.all([[], ["--units", "us"]].map((more) => tickets(EVENING, SCENARIO, "--rehearsals", "2", ...more)));
    const [, t] = /55 loads, ([\d.]+)\s+t\b/u.exec(metric!.stdout)!;
    const [, tons] = /55 loads, ([\d.]+)\s+ton\b/u.exec(us!.stdout)!;
    // 1 US ton = 0.90718474 t by definition; both are printed to a tenth.
    expect(Number(tons)).toBeCloseTo(Number(t) / 0.90718474, 0);
    expect(us!.stdout).toMatch(/Delivered by the hour: [\d.]+\s+ton\/h/u);
    expect(us!.stdout).not.toMatch(/\d\s+t(?:\/h)?\b/u);
    // Neither in a label, nor to the pound where the limit is a round one.
    expect(us!.stdout).not.toMatch(/Tonnes|loads, t,/u);
    expect(us!.stdout.replaceAll(/\n +/gu, " ")).toContain("no truck weighs more than 165 ton.");
    expect((await tickets(EVENING, SCENARIO, "--units", "imperial")).stderr).toContain("metric or us would do.");
  });

  it("tells each of several days by its own clock, and sets what explains it one under another", async () => {
    const path = place("days.csv");
    const row = (day: number, i: number) => `2026-09-${14 + day},${17 + Math.floor(i / 6)}:${(i % 6) * 10 || "00"},T${i % 3},10000`;
    const late = (day: number) => `2026-09-${15 + day},00:10,T0,10000`;
    writeFileSync(path, ["Date,Time,Truck,Net kg", ...[0, 1, 2].flatMap((day) => [...Array.from({ length: 38 + day }, (_, i) => row(day, i)), late(day)])].join("\n"));
    const { code, stdout } = await tickets(path, SCENARIO, "--rehearsals", "2");
    expect(code).toBe(0);
    const told = stdout.replaceAll(/\n +/gu, " ");
    for (const day of [1, 2, 3]) expect(told).toMatch(new RegExp(`Day ${day}: \\d+ loads, [\\d.]+ t from 17:00 to 00:10 \\(\\+1 day\\);`, "u"));
    expect(told).not.toContain("days)");
    const shares = stdout.split("\n").flatMap((line) => /^ +(?:−?[\d,]+ %)(?= {2})/u.exec(line) ?? []);
    expect(shares.length).toBeGreaterThan(2);
    expect(new Set(shares.map(({ length }) => length)).size).toBe(1);
  });

  it("asks what the file leaves open, all at once and with the option that answers it, and prints and writes nothing", async () => {
    const path = place("never.yaml");
    const { code, stdout, stderr } = await tickets(OPEN, SCENARIO, "--patch", path);
    expect([code, stdout, existsSync(path)]).toEqual([2, "", false]);
    expect(stderr.trim().split("\n").map((line) => /Say it with (--\w+)\.$/u.exec(line)?.[1])).toEqual(["--decimal", "--unit"]);
    const answered = await tickets(OPEN, SCENARIO, "--decimal", "comma", "--unit", "t", "--columns", "net=Net", "--rehearsals", "1", "--json");
    expect(answered.code).toBe(0);
    expect((JSON.parse(answered.stdout) as WeighedDay).days[0]!.tonnes).toBeCloseTo(20.555, 9);
  });

  it.each([
    ["a mark that is none", [OPEN, SCENARIO, "--decimal", "dot"], /point, comma/u],
    ["columns that are not said as they should", [OPEN, SCENARIO, "--columns", "net"], /Columns are said as name=heading/u],
    ["no tickets file", [place("none.csv"), SCENARIO], /There is no file .*none\.csv/u],
    ["both from standard input", ["-", "-"], /Only one of the two files can come from standard input/u],
    ["a scenario in place of tickets", [SCENARIO, SCENARIO], /^Which column/u],
  ])("ends with 2 and a sentence for %s", async (_, words, sentence) => {
    const { code, stdout, stderr } = await tickets(...words);
    expect([code, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(sentence);
  });
});
