import { describe, expect, it } from "vitest";
import { daysIn, gapsOf, measureDay, partsBy, weighingsOf, type Weighing } from "../../sim/study/tickets/loads.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { factsOf } from "../../sim/findings/facts.ts";
import { readTickets } from "../../sim/study/tickets/tickets.ts";
import { smallDay } from "../study/small.ts";

const MINUTE = 60;
const at = (minute: number, truck: string, mass: number, stay: number | null = null): Weighing => ({ at: minute * MINUTE, truck, mass, out: stay === null ? null : (minute + stay) * MINUTE });

describe("what the tickets of a day tell", () => {
  const day = [at(0, "A", 10_000, 4), at(10, "B", 12_000, 5), at(20, "C", 11_000, 6), at(30, "A", 10_000, 4), at(40, "B", 12_000, 6), at(90, "C", 11_000, 5)];

  it("is loads and tonnes an hour from the first to the last, the first left out, as rehearsed days have it", () => {
    const { loads, tonnes, loadsPerHour, tonnesPerHour, first, last } = measureDay(day);
    expect([loads, tonnes, first, last]).toEqual([6, 66, 0, 90 * MINUTE]);
    expect([loadsPerHour, tonnesPerHour]).toEqual([5 / 1.5, 56 / 1.5]);
  });

  it("is the mass of a load with its spread, the round of each truck and the time at the storage", () => {
    const { load, cycle, stay, atStorage } = measureDay(day);
    expect(load).toEqual({ n: 6, mean: 11, sd: Math.sqrt(4 / 5), cv: Math.sqrt(4 / 5) / 11 });
    expect([cycle!.n, cycle!.mean]).toEqual([3, (30 + 30 + 70) / 3]);
    expect([stay!.n, stay!.mean, atStorage]).toEqual([6, 5, 30 / 95]);
  });

  it("is the pace while loads kept coming, a long gap left out, and the gaps, longest first, breaks of the shift counted apart", () => {
    expect(measureDay(day).steadyPace).toBeCloseTo((12 + 11 + 10 + 12) / (40 / 60), 9);
    expect(measureDay(day).gaps.slice(0, 2)).toEqual([{ from: 2400, to: 5400, worked: 3000 }, { from: 0, to: 600, worked: 600 }]);
    expect(gapsOf(day, [{ at: 3000, for: 1800 }]).at(-1)!.worked).toBe(1200);
  });

  it("leaves out the rounds of trucks that went home between, and has none where no truck is named", () => {
    const home = [...day, at(99, "A", 10_000), at(100, "B", 10_000), at(600, "A", 10_000)];
    expect(measureDay(home).cycle!.n).toBe(5);
    expect(measureDay(day.map((each) => ({ ...each, truck: null }))).cycle).toBeNull();
  });

  it("is nothing that a single ticket cannot tell", () => {
    const { loadsPerHour, tonnesPerHour, steadyPace, cycle, stay, between, load } = measureDay([at(7, "A", 10_000)]);
    expect([loadsPerHour, tonnesPerHour, steadyPace, cycle, stay, between]).toEqual([null, null, null, null, null, null]);
    expect(load).toEqual({ n: 1, mean: 10, sd: null, cv: null });
  });
});

describe("days in a file", () => {
  it("are cut where nothing was weighed for more than five hours, not at midnight", () => {
    const hours = [20, 22, 24.5, 26, 31.5, 33].map((hour) => at(hour * 60, "A", 10_000));
    expect(daysIn(hours).map((day) => day.length)).toEqual([4, 2]);
  });
});

describe("tonnes by owner, field and truck", () => {
  it("add up to the kilogram, those that name nobody among them", () => {
    const { tickets } = readTickets("Time;Truck;Owner;Field;Net kg\n07:00;A;Hill;Upper;10001\n07:10;B;Brook;Lower;12002\n07:20;A;;Lower;11003\n07:30;B;Hill;;9004\n");
    expect(partsBy(tickets, "owner")).toEqual([{ name: "Hill", loads: 2, tonnes: 19.005 }, { name: "Brook", loads: 1, tonnes: 12.002 }, { name: null, loads: 1, tonnes: 11.003 }]);
    for (const key of ["owner", "field", "truck", "storage"] as const) {
      expect(Math.round(partsBy(tickets, key).reduce((sum, { tonnes }) => sum + tonnes, 0) * 1000)).toBe(42_010);
    }
  });
});

describe("a rehearsed day as a scale would print it", () => {
  it("has every load that was tipped, in order, and the mass of the findings", () => {
    const scenario = smallDay();
    const day = rehearseDay(scenario);
    const weighings = weighingsOf(day);
    const { measures } = factsOf(scenario, day);
    expect(weighings.length).toBe(measures.loads);
    expect(measureDay(weighings).tonnes).toBeCloseTo(measures.delivered, 9);
    expect(weighings.every(({ at: now, out }, i) => out! > now && (i === 0 || now >= weighings[i - 1]!.at))).toBe(true);
  });
});
