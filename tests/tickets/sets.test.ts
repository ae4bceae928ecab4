import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readTickets } from "../../sim/study/tickets/tickets.ts";
import { eveningDay, eveningText, FOLDER, STOP, stopDay, stopText, weighed } from "./sets.ts";

const shipped = (name: string) => readFileSync(join(FOLDER, name), "utf8");
const SETS = [["low-meadow-stop.csv", stopText], ["evening.csv", eveningText]] as const;

describe("the sets of weigh tickets that ship with the project", () => {
  it.each(SETS)("are days of the engine as a scale would print them: %s (written anew by tests/tickets/write-sets.ts)", (name, text) => {
    expect(shipped(name)).toBe(text());
  });

  it.each(SETS)("need no question to be answered, and lose no row: %s", (name) => {
    const { questions, rows, tickets, refused } = readTickets(shipped(name));
    expect([questions, tickets.length + refused.length]).toEqual([[], rows]);
  });

  it("of the meadow have what was rehearsed: every load to the ten kilograms that the scale shows, every time to the second", () => {
    const { tickets, refused } = readTickets(shipped("low-meadow-stop.csv"));
    const trips = weighed(stopDay());
    expect(refused).toEqual([]);
    expect(tickets.map(({ at, out, mass }) => [at, out, mass])).toEqual(trips.map((trip) => [Math.floor(trip.weighed), Math.floor(trip.tipped), Math.round(trip.mass / 10) * 10]));
    expect(trips.some((trip) => trip.weighed > STOP.at + 300 && trip.weighed < STOP.at + STOP.for)).toBe(false);
  });

  it("of the evening have what was rehearsed, past midnight, from stored and borrowed tares; the trial, the second print and the sum are refused", () => {
    const { tickets, refused, remarks, mapping } = readTickets(shipped("evening.csv"));
    const trips = weighed(eveningDay());
    expect(tickets.map(({ at, mass }) => [at, Math.round(mass)])).toEqual(trips.map((trip) => [Math.floor(trip.weighed), Math.round(trip.mass / 20) * 20]));
    expect(tickets.at(-1)!.at).toBeGreaterThan(86_400);
    expect(refused.map(({ row }) => row)).toEqual([6, 24, shipped("evening.csv").trimEnd().split("\n").length]);
    expect(mapping).toMatchObject({ delimiter: "semicolon", headingRow: 2, decimal: "comma", dates: "dmy", unit: "t" });
    expect(remarks.filter(({ remark }) => remark.startsWith("It has no tare")).length).toBeGreaterThan(3);
    const sum = Number(shipped("evening.csv").trimEnd().split(";").at(-1)!.replace(",", ".")) * 1000;
    expect(Math.round(tickets.reduce((all, { mass }) => all + mass, 0))).toBe(Math.round(sum));
  });
});
