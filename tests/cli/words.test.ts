/** What the terminal says, read as a contractor would read it: help, pages and refusals. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { clampsideHere } from "./here.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import { WIDTH } from "../../server/cli/terminal.ts";
import { newFolder } from "../temporary.ts";

const MEADOW = "scenarios/low-meadow.yaml";
const COMMANDS = ["rehearse", "compare", "fixes", "crewup", "tickets", "fields", "campaign", "check", "serve", "keep", "restore"];
const page = async (...words: string[]): Promise<string> => {
  const { code, stdout, stderr } = await clampsideHere(...words);
  expect([code, stderr]).toEqual([0, ""]);
  return stdout;
};
const refused = async (...words: string[]): Promise<string> => {
  const { code, stdout, stderr } = await clampsideHere(...words);
  expect([code, stdout]).toEqual([2, ""]);
  return stderr;
};
/** A sentence may stand on several lines. */
const unwrapped = (text: string): string => text.replaceAll(/\n +/gu, " ");

describe("The help", () => {
  it.each([[], ...COMMANDS.map((command) => [command])])("fits 80 columns but where a command stands to be copied, and ends on nothing of the parser's own: %s", async (...command) => {
    const help = await page(...command, "--help");
    for (const line of help.split("\n")) if (!line.startsWith("  clampside ")) expect(line.length, line).toBeLessThanOrEqual(WIDTH);
    expect(help).not.toContain("display help");
  });

  it("shows a search that can be carried out as it is written", async () => {
    const search = /( {2}search:\n(?: {4}.*\n)+)/u.exec(await page("crewup", "--help"))![1]!.replaceAll(/^ {2}/gmu, "");
    const checked = readScenario(`${readFileSync(MEADOW, "utf8")}${search}`);
    expect("problems" in checked ? checked.problems : []).toEqual([]);
  });
});

describe("Wrong use", () => {
  it.each([
    [["fixes", MEADOW, "--rehearsals", "0"], "--rehearsals is \"0\": a whole number from 1 to 100,000 would do."],
    [["rehearse", MEADOW, "--units", "cubits"], "--units is \"cubits\": metric or us would do."],
    [["rehearse", MEADOW, "--seed"], "--seed <s> wants a value."],
    [["tickets", "a.csv", MEADOW, "--unit", "stone"], "--unit is \"stone\": one of kg, t, lb, ton would do."],
    [["check", MEADOW, "--frm"], "There is no option \"--frm\"."],
    [["rehearse", MEADOW, "--frm", "x"], "There is no option \"--frm\"; did you mean --from?"],
    [["rehears", MEADOW], "There is no command \"rehears\"; did you mean rehearse?"],
    [["tickets", "a.csv"], "The <file> is missing."],
    [["check", MEADOW, MEADOW, MEADOW], "3 names are given where 1 would do."],
  ])("is told in a sentence of the house's own: %s", async (words, sentence) => {
    expect(await refused(...words)).toBe(`${sentence}\nclampside --help says what there is.\n`);
  });
});

describe("Standard input", () => {
  it.each([
    ["compare", "-", "-"], ["campaign", "-", "-"], ["rehearse", "-", "--from", "-"], ["fixes", "-", "--from", "-"], ["tickets", "-", "-"],
  ])("can be only one of two files: %s %s %s", async (...words) => {
    expect(await refused(...words)).toBe("Only one of the two files can come from standard input.\n");
  });
});

describe("A file that cannot be written", () => {
  it("is told in a sentence without a word of the system's", async () => {
    const folder = newFolder();
    const told = async (log: string) => {
      const { code, stdout, stderr } = await clampsideHere("rehearse", MEADOW, "--rehearsals", "1", "--log", log);
      expect([code, stdout]).toEqual([1, ""]);
      return stderr;
    };
    expect(await told(join(folder, "none", "day.jsonl"))).toBe(`The log cannot be written to ${join(folder, "none", "day.jsonl")}: there is no such folder.\n`);
    expect(await told(folder)).toBe(`The log cannot be written to ${folder}: it is a folder; a file would do.\n`);
  });
});

describe("A single rehearsal", () => {
  it("of a plan with luck is not called one without it", async () => {
    expect((await page("rehearse", MEADOW, "--rehearsals", "1")).split("\n")[1]).toBe("one day rehearsed, seed 1, engine 0.4.0");
    expect((await page("rehearse", "scenarios/contractor-corn-day.yaml")).split("\n")[1]).toBe("one day, no luck in it, seed 1, engine 0.4.0");
    expect((await page("campaign", "scenarios/campaign/corn-two-weeks.yaml", "--campaigns", "1")).split("\n")[1]).toMatch(/^one campaign rehearsed, from /u);
    const held = unwrapped(await page("tickets", "scenarios/tickets/low-meadow-stop.csv", MEADOW, "--rehearsals", "1"));
    expect(held).not.toContain("no luck in it");
    expect(held).toContain("One rehearsed day does not show how far a day may be off by luck.");
    expect(held).toMatch(/Loads: 34, and the rehearsed day has \d+\./u);
  });
});

describe("The page of a day", () => {
  it("keeps its columns apart where the tonne is dear", async () => {
    const dear = join(newFolder(), "dear.yaml");
    writeFileSync(dear, readFileSync(MEADOW, "utf8").replace("area: 14 ha", "area: 2 ha").replace("cost: 420 per h", "cost: 9000 per h"));
    const line = (await page("rehearse", dear, "--rehearsals", "8")).split("\n").find((each) => each.startsWith("  Cost, dry matter fed"))!;
    expect(line).toMatch(/ \d{3}\.\d\d EUR per t +\d{3}\.\d\d–\d{3}\.\d\d \d{3}\.\d\d–\d{3}\.\d\d$/u);
    expect(line.length).toBeLessThanOrEqual(WIDTH);
  });
});

describe("A chance", () => {
  const changed = (name: string, ...changes: (readonly [string, string])[]): string => {
    const file = join(newFolder(), `${name}.yaml`);
    writeFileSync(file, changes.reduce((text, [from, to]) => text.replace(from, to), readFileSync(MEADOW, "utf8")));
    return file;
  };

  it("that the relation gives is never called none, and days rehearsed once are no days of many", async () => {
    const loose = changed("loose", ["dryDensity: 240", "dryDensity: 380"], ["variation: typical", "variation: none"]);
    expect(unwrapped(await page("rehearse", loose))).toContain("Chance that this one reaches the target: under 1 %.");
    const crew = changed("crew", ["dryDensity: 240", "dryDensity: 150"], ["variation: typical", "variation: none\nsearch:\n  trucks: {from: 3, to: 4}"]);
    expect(unwrapped(await page("crewup", crew))).toContain("It met all targets on the day rehearsed. ");
  });
});

describe("A file of tickets without a row", () => {
  it("is told of, and no option is named that would not help", async () => {
    const empty = join(newFolder(), "empty.csv");
    writeFileSync(empty, "\n");
    expect(await refused("tickets", empty, MEADOW)).toBe("The file has no rows: a row of headings and a row for each load would do.\n");
  });
});

describe("A page", () => {
  it("has a true minus before every figure that is less", async () => {
    for (const words of [["fixes", MEADOW], ["compare", MEADOW, "scenarios/contractor-corn-day-fixed.yaml"], ["tickets", "scenarios/tickets/evening.csv", "scenarios/tickets/evening-meadow.yaml"]]) {
      const text = await page(...words, "--rehearsals", "3");
      expect(text, words[0]).toMatch(/\u2212\d/u);
      expect(text, words[0]).not.toMatch(/(?:^|\s)-\d/mu);
    }
  });

  it("keeps a figure on one line with its unit", async () => {
    for (const system of ["metric", "us"]) for (const words of [["rehearse", MEADOW], ["fixes", MEADOW]]) {
      expect(await page(...words, "--rehearsals", "3", "--units", system)).not.toMatch(/\d\n +(?:kg|t|t\/h|lb|ton|ton\/h|m2|ft2|cm|in|min|h|%)(?![\w/])/u);
    }
  });

  it("says what remedies start from in a sentence, and puts what stands without the layer's effect under its remedy", async () => {
    const text = await page("fixes", MEADOW, "--rehearsals", "3", "--units", "us");
    expect(unwrapped(text)).toMatch(/As it is: cost, dry matter fed \d+\.\d\d EUR per ton; dry matter density 1\d\.\d lb\/ft3; chopper waiting \d+ %\. /u);
    expect(text).toMatch(/\n {4}the same where the layer has no/u);
    expect(text).toMatch(/ EUR\/ton /u);
  });

  it("gives a density in pounds the same digit in the table and in the sentence, and no tractor to the pound", async () => {
    const text = unwrapped(await page("rehearse", MEADOW, "--rehearsals", "3", "--units", "us"));
    const [, said] = /the clamp ends at (\d+\.\d) lb DM\/ft3/u.exec(text)!;
    expect(text).toMatch(new RegExp(`Dry matter density +${said!.replace(".", "\\.")} lb/ft3`, "u"));
    expect(text).toMatch(/it is short of \d+,\d00 lb of packing tractor/u);
  });

  it("tells in US units what is left to feed as the table above has it", async () => {
    for (const example of ["haylage-drying", "two-choppers-one-clamp", "low-meadow"]) {
      const text = unwrapped(await page("rehearse", `scenarios/${example}.yaml`, "--rehearsals", "3", "--units", "us"));
      const [, stored] = /Stored +(\d+) /u.exec(text)!;
      const [, fed, low, high] = /Left to feed +(\d+) +(\d+) – (\d+)/u.exec(text)!;
      expect(text, example).toContain(`Of ${stored} ton of dry matter stored, ${low} ton to ${high} ton are left to feed, ${fed} ton by the central figures`);
    }
  });

  it("tells a crew's tractors in check without a tenth that says nothing", async () => {
    expect(await page("check", MEADOW)).toContain("2 tractors of 30 t in all");
  });

  it("counts the rest of a day, its hours and its money, from when it was taken up, and says so", async () => {
    const noon = unwrapped(await page("rehearse", MEADOW, "--from", "scenarios/now/low-meadow-noon.yaml", "--rehearsals", "3"));
    expect(noon).toContain("Finished, after 13:10");
    expect(noon).toContain("by the hour, from when the day was taken up until each is home");
    expect(noon).not.toMatch(/after start|shift start/u);
    // One time of day for the end, and not the mean of it as well.
    expect(noon).toMatch(/All is packed and closed at \d\d:\d\d/u);
    expect(noon).not.toContain("the clamp is closed at");
    const morning = unwrapped(await page("rehearse", MEADOW, "--rehearsals", "3"));
    expect(morning).toMatch(/Finished, after start .*the clamp is closed at/u);
    expect(morning).toContain("by the hour, from shift start until each is home");
  });
});
