import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { csv } from "../../sim/csv.ts";
import type { Cell } from "../../sim/csv.ts";
import { meadow } from "./meadow.ts";
import { post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";

/** Reads RFC 4180 the slow way: letter by letter. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = "";
  let quoted = false;
  for (let i = text.startsWith("\ufeff") ? 1 : 0; i < text.length; i += 1) {
    const letter = text[i]!;
    if (quoted) {
      if (letter !== "\"") cell += letter;
      else if (text[i + 1] === "\"") { cell += "\""; i += 1; } else quoted = false;
    } else if (letter === "\"") quoted = true;
    else if (letter === ",") { rows.at(-1)!.push(cell); cell = ""; } else if (letter === "\r" && text[i + 1] === "\n") {
      rows.at(-1)!.push(cell);
      cell = "";
      rows.push([]);
      i += 1;
    } else cell += letter;
  }
  rows.pop();
  return rows;
}

describe("a table for spreadsheets", () => {
  it("holds nothing that a spreadsheet would carry out, and says the same as what went in", () => {
    const text = fc.oneof(
      fc.string({ unit: "binary" }),
      fc.tuple(fc.constantFrom("", " ", "\t", "\r", "\n", "\0", "\u00a0"), fc.constantFrom("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20"), fc.string()).map((parts) => parts.join("")),
    );
    const cell: fc.Arbitrary<Cell> = fc.oneof(text, fc.double(), fc.constant(null));
    fc.assert(fc.property(fc.array(fc.array(cell, { minLength: 3, maxLength: 3 }), { maxLength: 5 }), (rows) => {
      const [, ...read] = readCsv(csv(["a", "b", "c"], rows));
      expect(read.length).toBe(rows.length);
      rows.forEach((row, r) => row.forEach((value, c) => {
        const found = read[r]![c]!;
        if (typeof value === "string") {
          expect(found.replace(/^'/, "")).toBe(value.replace(/^'/, ""));
          expect(found).not.toMatch(/^[\s\0]*[=+\-@\uff1d\uff0b\uff0d\uff20]/u);
        } else expect(found).toBe(value === null || !Number.isFinite(value) ? "" : String(value));
      }));
    }), { numRuns: 500 });
  });

  it("keeps a negative number a number", () => {
    expect(csv(["a"], [[-3.5]])).toBe("\ufeffa\r\n-3.5\r\n");
  });
});

describe("the tables of a rehearsal", () => {
  let served: Served;
  beforeAll(async () => { served = await serveApp(); });
  afterAll(() => served.close());
  const formula = "=HYPERLINK(\"http://farm.example\",\"x\")";

  it("tell its measures, loads and lifts, and take a name like a formula for a name", async () => {
    const scenario = { ...meadow, fields: [{ ...meadow.fields[0], name: formula }], variation: "none" };
    const asked = await post(served.url, JSON.stringify({ scenario }));
    const { findings } = (await asked.json()) as { findings: { measures: Record<string, { mean: number }> } };
    const table = async (name: string) => {
      const answer = await fetch(`${served.url}${asked.headers.get("Location")}/${name}.csv`);
      expect([answer.status, answer.headers.get("Content-Type"), answer.headers.get("Content-Disposition")])
        .toEqual([200, "text/csv; charset=utf-8", `attachment; filename="${name}.csv"`]);
      expect(answer.headers.get("ETag")).toMatch(/^"[\w-]+"$/);
      const [heads = [], ...rows] = readCsv(new TextDecoder("utf-8", { ignoreBOM: true }).decode(await answer.arrayBuffer()));
      return rows.map((row) => Object.fromEntries(row.map((cell, i) => [heads[i] ?? "", cell])));
    };
    const measures = await table("measures");
    expect(measures.map(({ measure, mean }) => [measure, Number(mean)])).toEqual(Object.entries(findings.measures).map(([name, { mean }]) => [name, mean]));
    const trips = await table("trips");
    expect(trips.length).toBe(findings.measures.loads?.mean);
    expect(trips.reduce((sum, trip) => sum + Number(trip["mass t"]), 0)).toBeCloseTo(findings.measures.delivered?.mean ?? NaN, 2);
    expect(trips[0]).toMatchObject({ load: "1", chopper: "Chopper", field: `'${formula}`, storage: "Bunker", alongside: "07:00:00" });
    const lifts = await table("lifts");
    expect(lifts.length).toBe(trips.length);
    expect(Number(lifts[0]?.["layer cm"])).toBe(15);
  });

  it("are not there for a rehearsal that is not kept", async () => {
    expect((await fetch(`${served.url}/api/v1/rehearsals/none/trips.csv`)).status).toBe(404);
  });
});
