/** The three doors by which a scenario comes in, the parser, the command line and the API, told the same broken ones. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Problem } from "../../sim/scenario/types.ts";
import { readScenario } from "../scenario/days.ts";
import { brokenDay, brokenText, junk, runs } from "../scenario/generated.ts";
import { BUILDING_MS, buildHouse, type BuiltHouse } from "../server/built.ts";
import { post, serveApp, type Served } from "../server/served.ts";
import { newFolder } from "../temporary.ts";
import { clampsideHere } from "./here.ts";
import { clampsideIn, type Ran } from "./run.ts";
import { watchdog } from "./watchdog.ts";

const lowMeadow = readFileSync(new URL("../../scenarios/low-meadow.yaml", import.meta.url), "utf8");
const folder = newFolder();
const FILE = join(folder, "day.yaml");
/** errors of one scenario that the API tells; the rest it counts */
const MOST_TOLD = 100;

let served: Served;
let house: BuiltHouse;
beforeAll(async () => {
  house = buildHouse();
  served = await serveApp({ limits: { perMinute: 100_000_000, stepsPerDay: 1_000, steps: 1_000, errors: MOST_TOLD } });
}, BUILDING_MS);
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  house?.remove();
  await served?.close();
});

/** Days with something broken, texts cut and patched, and anything at all: as a file would hold it. One that is blank is no body at all to the API. */
const broken = fc.oneof(
  { weight: 5, arbitrary: brokenDay().map((day) => JSON.stringify(day)) },
  { weight: 4, arbitrary: brokenText(lowMeadow) },
  { weight: 1, arbitrary: fc.oneof(junk.map((value) => JSON.stringify(value) ?? ""), fc.string({ unit: "binary", maxLength: 300 })) },
).filter((text) => text.trim() !== "" && !/\p{Surrogate}/u.test(text));

/** Where only the command line looks for the file that an outline names, and has words of its own when there is none. */
const NO_MAPS = "a map file is read by the command line only";

/** What the command line says of the file: code 2 and one line for each problem, with its place. */
function expectRefused({ code, stdout, stderr }: Ran, problems: readonly Problem[]): void {
  expect([code, stdout]).toEqual([2, ""]);
  const said = stderr.split("\n").slice(0, -1);
  expect(said.length).toBe(problems.length);
  for (const [i, { line, column, detail }] of problems.entries()) {
    const place = `${FILE}:${line}:${column}: `;
    if (detail.includes(NO_MAPS)) expect(said[i]!.startsWith(place + detail.slice(0, detail.indexOf(" is ")))).toBe(true);
    else expect(said[i]).toBe(place + detail);
  }
}

/** Microseconds of processor time that one scenario may take at all three doors: a second, and about a hundred times what it takes. It does not count what other processes do. */
const MOST_CPU = 1_000_000;
/** ms after which a scenario hangs, on a machine as busy as it may be. */
const HANGS = 60_000;

async function throughAllDoors(text: string): Promise<void> {
  writeFileSync(FILE, text);
  const before = process.cpuUsage();
  const checked = readScenario(text);
  const told = await clampsideHere("check", FILE);
  const answer = await post(served.url, text, "application/yaml");
  const body = await answer.text();
  if ("problems" in checked) {
    expectRefused(told, checked.problems);
    expect([400, 422]).toContain(answer.status);
    const { errors } = JSON.parse(body) as { errors: Problem[] };
    expect(errors.map(({ detail }) => detail)).toEqual(checked.problems.slice(0, MOST_TOLD).map(({ detail }) => detail));
  } else {
    expect([told.code, told.stderr]).toEqual([0, ""]);
    expect(told.stdout).toContain("The scenario is sound.");
    // A sound day that is too long for one request, or has no end, is refused in words.
    expect([200, 422]).toContain(answer.status);
    if (answer.status === 200) {
      const rehearsed = await clampsideHere("rehearse", FILE, "--json");
      expect([rehearsed.code, rehearsed.stderr]).toEqual([0, ""]);
      expect(JSON.parse(rehearsed.stdout)).toEqual((JSON.parse(body) as { findings: unknown }).findings);
    }
  }
  const { user, system } = process.cpuUsage(before);
  if (process.env.CLAMPSIDE_LONG) expect(user + system, text).toBeLessThan(MOST_CPU);
}

// 100,000 in the long run, which is most of an hour.
describe("A broken scenario", { timeout: 7_200_000 }, () => {
  it("is refused with the same sentences by the parser, the command line and the API, or rehearsed to the same findings; none fails, crashes or hangs", async () => {
    // An endless loop would stop the clock of the test as well.
    const watching = watchdog(FILE, HANGS);
    try {
      await fc.assert(fc.asyncProperty(broken, throughAllDoors).afterEach(watching.next), { numRuns: runs(400, 100_000) });
    } finally {
      await watching.end();
    }
    expect(served.reports).toEqual([]);
  });

  it("is told the same by the command as a process of its own", async () => {
    const texts = fc.sample(broken, runs(3, 300));
    for (const text of texts) {
      writeFileSync(FILE, text);
      expect(await clampsideIn(house, ["check", FILE])).toEqual(await clampsideHere("check", FILE));
    }
  });
});
