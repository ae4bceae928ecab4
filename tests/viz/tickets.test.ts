import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { checkScenario, readScenario } from "../../sim/scenario/read.ts";
import { hashOf } from "../../sim/scenario/hash.ts";
import { patchOf } from "../../sim/study/tickets/patch.ts";
import { patchedText } from "../../sim/study/tickets/patchtext.ts";
import { readTickets } from "../../sim/study/tickets/tickets.ts";
import type { Document } from "../../viz/document.ts";
import { textOf } from "../../viz/tickets/bytes.ts";
import { byHour, gapsThatStandOut } from "../../viz/tickets/hours.ts";
import { patchedDocument } from "../../viz/tickets/patched.ts";
import { answers, file, reading, take, takeFile, trouble, withColumn } from "../../viz/tickets/taken.ts";
import { EVENING, FOLDER, MEADOW, eveningText, stopText } from "../tickets/sets.ts";

const bytes = (...values: number[]) => new Uint8Array(values);

describe("the bytes of a file of tickets", () => {
  it("are read by their byte-order mark, else as UTF-8, else letter by letter as older scales write them, and never as text when they are none", () => {
    expect(textOf(new TextEncoder().encode("\ufeffTime;Böschung"))).toEqual({ text: "Time;Böschung", encoding: "UTF-8" });
    expect(textOf(bytes(0xff, 0xfe, 0x41, 0, 0xf6, 0))).toEqual({ text: "Aö", encoding: "UTF-16" });
    expect(textOf(bytes(0xfe, 0xff, 0, 0x41))).toEqual({ text: "A", encoding: "UTF-16" });
    expect(textOf(bytes(0x41, 0xf6))).toEqual({ text: "Aö", encoding: "Windows-1252" });
    expect(textOf(bytes(0x50, 0x4b, 0, 1))).toBeNull();
  });
});

describe("tickets on the page", () => {
  const own = (text: string) => take({ name: "own.csv", text, encoding: "UTF-8", of: null });

  it("take the place of those before only when they can be read, and nothing is lost when they cannot", async () => {
    own("Time;Net kg\n07:10;15980\n");
    expect(reading.value!.tickets).toHaveLength(1);
    for (const [bad, why] of [["  \n", /nothing in it/u], ["x".repeat(4_000_001), /up to 4,000,000 are read/u]] as const) {
      own(bad);
      expect(trouble.value).toMatch(why);
      expect(file.value!.text).toContain("15980");
    }
    await takeFile(new File([bytes(0, 1)], "picture.png"));
    expect(trouble.value).toContain("is no text");
    expect(file.value!.text).toContain("15980");
    await takeFile(new File([new Uint8Array(8_000_001)], "films.csv"));
    expect(trouble.value).toBe("films.csv is too large: up to 8,000,000 bytes would do.");
    expect(file.value!.text).toContain("15980");
    await takeFile(new File(["Time;Net kg\n07:10;1\n07:20;2\n"], "b.csv"));
    expect([trouble.value, file.value!.name, reading.value!.tickets.length]).toEqual([null, "b.csv", 2]);
  });

  it("have their columns read as the reader says, one column one thing, also where two headings are alike", () => {
    own("When;Mass kg;Mass kg;No\n07:10;1;15980;7\n07:20;2;15210;7\n");
    answers.value = withColumn(answers.value, reading.value!.mapping, 0, "time");
    answers.value = withColumn(answers.value, reading.value!.mapping, 2, "net");
    expect(reading.value).toMatchObject({ questions: [], tickets: [{ mass: 15_980 }], refused: [{ row: 3 }] });
    answers.value = withColumn(answers.value, reading.value!.mapping, 3, null);
    expect(reading.value!.tickets.map(({ mass }) => mass)).toEqual([15_980, 15_210]);
    answers.value = withColumn(answers.value, reading.value!.mapping, 2, "tare");
    expect(reading.value!.questions.map(({ about }) => about)).toEqual(["columns"]);
    expect(reading.value!.mapping.columns).toEqual({ time: 0, tare: 2 });
  });
});

describe("a recorded day by the hour", () => {
  const { tickets } = readTickets(stopText());

  it("has every hour from the first load to the last, and loses no load and no mass", () => {
    const hours = byHour(tickets);
    expect(hours.map(({ from }) => from / 3600)).toEqual([7, 8, 9, 10, 11, 12]);
    expect(hours.reduce((sum, { loads }) => sum + loads, 0)).toBe(tickets.length);
    expect(hours.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(tickets.reduce((sum, { mass }) => sum + mass, 0), 6);
    expect(byHour([])).toEqual([]);
  });

  it("shows the stop, and not the shift's own break", () => {
    const gaps = gapsThatStandOut(tickets, MEADOW.shift.breaks);
    expect(gaps).toHaveLength(1);
    expect(gaps[0]!.worked).toBeGreaterThan(45 * 60);
    expect(gapsThatStandOut(tickets.slice(0, 1), [])).toEqual([]);
  });
});

describe("what tickets change in the reader's own document", () => {
  it.each([["../low-meadow.yaml", MEADOW, stopText], ["evening-meadow.yaml", EVENING, eveningText]] as const)("is what they change in the file of the command line: %s", (name, scenario, csv) => {
    const text = readFileSync(join(FOLDER, name), "utf8");
    const patch = patchOf(scenario, readTickets(csv()).tickets);
    expect(patch.changes.length).toBeGreaterThan(0);
    const onPage = checkScenario(patchedDocument(parse(text) as Document, patch));
    const onLine = readScenario(patchedText(text, patch));
    if ("problems" in onPage || "problems" in onLine) throw new Error("unsound");
    expect(hashOf(onPage.scenario)).toBe(hashOf(onLine.scenario));
    expect(hashOf(onPage.scenario)).not.toBe(hashOf(scenario));
  });

  it("writes out the usual variation of everything else where the document has a word for all of it or none", () => {
    const patch = { changes: [{ path: ["variation", "tip"], value: { shape: "gamma", cv: "12 %" }, n: 40, because: "", fit: null }] };
    expect(patchedDocument({ variation: "none" }, patch)).toMatchObject({ variation: { load: "none", tip: { shape: "gamma", cv: "12 %" } } });
    expect(patchedDocument({}, patch)).toMatchObject({ variation: { loaded: "15.0 %", tip: { shape: "gamma" } } });
    expect(patchedDocument({ variation: { load: "5 %" } }, patch)).toEqual({ variation: { load: "5 %", tip: { shape: "gamma", cv: "12 %" } } });
    expect(patchedDocument({ variation: "none" }, { changes: [] })).toEqual({ variation: "none" });
  });
});
