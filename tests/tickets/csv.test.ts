import { describe, expect, it } from "vitest";
import { MOST_ROWS, MOST_TEXT, readSheet } from "../../sim/study/tickets/csv.ts";

const cells = (text: string) => readSheet(text).rows.map((row) => row.cells);

describe("the text of a file of tickets", () => {
  it.each([",", ";", "\t"])("is cut at %j, whichever of the three stands between cells", (mark) => {
    const { delimiter, rows } = readSheet([["Time", "Truck", "Net kg"], ["07:10", "A", "15980"]].map((row) => row.join(mark)).join("\n"));
    expect(delimiter).toBe(mark);
    expect(rows.map((row) => row.cells)).toEqual([["Time", "Truck", "Net kg"], ["07:10", "A", "15980"]]);
  });

  it("is cut at semicolons though every number has a comma, and at commas though every name has a semicolon", () => {
    expect(readSheet("Time;Gross;Net\n07:10;25,18;15,98\n07:20;25,02;15,90\n").delimiter).toBe(";");
    expect(readSheet("Time,Truck,Net\n07:10,A;1,15980\n07:20,B;2,15900\n").delimiter).toBe(",");
  });

  it("is cut where its headings are set apart, though rows that are none are cut more alike elsewhere", () => {
    expect(readSheet("Time;Truck;Gross kg;Net kg\n1,2;\n12,5;\n0,5\n").delimiter).toBe(";");
    expect(readSheet("Weighed on the scale at the dairy, by time, in kg\nUhrzeit;Netto\n07:10;15980\n").delimiter).toBe(";");
  });

  it("loses its byte-order mark and nothing else, and counts rows as a spreadsheet does, blank ones included", () => {
    const { rows } = readSheet("\ufeffTime;Net\r\n\r\n07:10;15980\r\n  \r\n07:20;15900\r\n");
    expect(rows.map(({ row }) => row)).toEqual([1, 3, 5]);
    expect(rows[0]!.cells).toEqual(["Time", "Net"]);
  });

  it("may hold delimiters and quotation marks inside quotation marks, and quotation marks inside a cell", () => {
    expect(cells("Time,Owner,Net\n07:10,\"Hill, Upper \"\"Old\"\" Farm\",15980\n07:20,The \"Old\" Farm,15900\n")).toEqual([
      ["Time", "Owner", "Net"], ["07:10", "Hill, Upper \"Old\" Farm", "15980"], ["07:20", "The \"Old\" Farm", "15900"],
    ]);
  });

  it("loses one row and not the rest to a quotation mark that is never closed", () => {
    const { rows } = readSheet("Time,Owner,Net\n07:10,\"Hill,15980\n07:20,Brook,15900\n07:30,Mill,15800\n");
    expect(rows.map(({ broken }) => broken)).toEqual([null, "has a quotation mark that is not closed", null, null]);
    expect(rows.map((row) => row.cells[2])).toEqual(["Net", "15980", "15900", "15800"]);
  });

  it("loses no rows between two quotation marks that do not belong together: one line is one row", () => {
    const text = "Time,Owner,Net\n07:10,\"Hill,15980\n07:20,Brook,15900\n07:30,Mill,15800\n07:40,\"Hill,15700\n";
    expect(readSheet(text).rows.filter(({ broken }) => broken === null).map((row) => row.cells[0])).toEqual(["Time", "07:20", "07:30"]);
  });

  it("is refused in a sentence when it is larger than any season of tickets, and is empty when it holds nothing", () => {
    expect(() => readSheet("x".repeat(MOST_TEXT + 1))).toThrow("The tickets are 4,000,001 characters; up to 4,000,000 are read.");
    expect(() => readSheet("a,b\n".repeat(MOST_ROWS + 1))).toThrow("The file has 20,001 rows; up to 20,000 are read.");
    expect(readSheet(" \n\n").rows).toEqual([]);
  });
});
