import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readTickets } from "../../sim/study/tickets/tickets.ts";
import { runs } from "../kernel/runs.ts";

const HEAD = "Ticket;Date;Time;Out;Truck;Gross kg;Tare kg;Stored tare kg;Net kg";
const read = (...rows: string[]) => readTickets(`${[HEAD, "0;2026-09-14;06:00;;Z;20000;9000;;11000", ...rows].join("\n")}\n`);
/** What is told of the one row under test: the mass of its ticket, or why it is refused. */
const fate = (row: string, ...before: string[]) => {
  const { tickets, refused } = read(...before, row);
  const at = before.length + 3;
  return tickets.find((ticket) => ticket.row === at)?.mass ?? refused.find((each) => each.row === at)?.because;
};

describe("a row of tickets", () => {
  it.each([
    ["gross less tare where there is no net mass", "1;2026-09-14;07:10;;A;25180;9200;;", 15_980],
    ["the net mass alone", "1;2026-09-14;07:10;;A;;;;15980", 15_980],
    ["gross less the tare that the scale keeps", "1;2026-09-14;07:10;;A;25180;;9200;", 15_980],
    ["gross less tare where the net mass agrees", "1;2026-09-14;07:10;;A;25180;9200;;15981", 15_980],
  ])("weighs %s", (_, row, mass) => expect(fate(row)).toBe(mass));

  it("without a tare takes that of its truck's ticket before, and is told so", () => {
    const { tickets, remarks } = read("1;2026-09-14;07:10;;A;25180;9200;;", "2;2026-09-14;07:40;;A;25000;;;");
    expect(tickets.at(-1)!.mass).toBe(15_800);
    expect(remarks).toContainEqual({ row: 4, remark: "It has no tare: that of row 3, 9,200 kg, was taken." });
  });

  it("is refused in the unit that its ticket is printed in", () => {
    const why = (head: string, row: string) => readTickets(`Time;${head}\n${row}\n`).refused[0]!.because;
    expect(why("Gross lb;Tare lb;Net lb", "07:10;56000;20000;35000")).toBe("Gross less tare is 36,000 lb and the net mass 35,000 lb: they may differ by 2 lb.");
    expect(why("Gross t;Tare t", "07:10;9.2;25.18")).toBe("It weighs 9.20 t full and 25.18 t empty: nothing was in it.");
    expect(why("Net lb", "07:10;3500000")).toBe("The net is \"3500000\": no truck weighs more than 330,693 lb.");
  });

  it("with a tare that the scale keeps is told once for all of them, with how many there are", () => {
    const { remarks } = read("1;2026-09-14;07:10;;A;25180;;9200;", "2;2026-09-14;07:40;;A;25000;;9200;", "3;2026-09-14;08:10;;A;25000;9200;;");
    expect(remarks).toEqual([{ row: 3, remark: "The tare is the one that the scale keeps, here and on 1 more." }]);
  });

  it.each([
    ["net that is not gross less tare", "1;2026-09-14;07:10;;A;25180;9200;;15000", "Gross less tare is 15,980 kg and the net mass 15,000 kg: they may differ by 2 kg."],
    ["gross and tare the wrong way round", "1;2026-09-14;07:10;;A;9200;25180;;", "It weighs 9,200 kg full and 25,180 kg empty: nothing was in it."],
    ["no mass", "1;2026-09-14;07:10;;A;;;;", "It has no mass."],
    ["a net mass of nothing", "1;2026-09-14;07:10;;A;;;;0", "The net mass is nothing."],
    ["less than nothing", "1;2026-09-14;07:10;;A;;;;-15980", "The net is \"-15980\": nothing weighs less than nothing."],
    ["more than any truck", "1;2026-09-14;07:10;;A;;;;1598000", "The net is \"1598000\": no truck weighs more than 150,000 kg."],
    ["a word for a mass", "1;2026-09-14;07:10;;A;;;;full", "The net is \"full\": no number with a decimal point."],
    ["no time", "1;2026-09-14;;;A;;;;15980", "It has no time."],
    ["no such time", "1;2026-09-14;24:10;;A;;;;15980", "The time is \"24:10\": no time of day."],
    ["no such day", "1;2026-02-30;07:10;;A;;;;15980", "The date is \"2026-02-30\": there is no such day, read as ymd."],
    ["no date among dates", "1;;07:10;;A;;;;15980", "It has no date."],
    ["a number twice", "0;2026-09-14;07:10;;A;;;;15980", "It is weighed twice: row 2 has the same number."],
    ["the same truck at the same time", "1;2026-09-14;06:00;;Z;;;;15980", "It is weighed twice: row 2 has the same truck and time."],
    ["a row cut short", "1;2026-09-14;07:10", "It has 3 values where the heading has 9."],
    ["a cell too many", "1;2026-09-14;07:10;;A;;;;15980;7", "It has 10 values where the heading has 9."],
    ["nothing but delimiters", ";;;;;;;;", "It has no mass."],
    ["a sum at the end", "Sum;;;;;;;;15980", "It has no time."],
    ["a truck that stays half a day", "1;2026-09-14;07:10;17:10;A;;;;15980", /no truck stands at the storage for more than 6 h/u],
  ])("is refused with %s", (_, row, because) => {
    if (typeof because === "string") expect(fate(row)).toBe(because);
    else expect(fate(row)).toMatch(because);
  });
});

describe("numbers and names", () => {
  it("may begin anew each day: a number is another ticket's on another day", () => {
    const { tickets, refused } = read("1;2026-09-14;07:10;;A;;;;15980", "1;2026-09-15;07:10;;A;;;;15210", "1;2026-09-15;07:10;;A;;;;15210");
    expect(tickets.map(({ row }) => row)).toEqual([2, 3, 4]);
    expect(refused).toMatchObject([{ row: 5, because: "It is weighed twice: row 4 has the same number." }]);
  });

  it("are one truck's, or one owner's, however they are capitalised and spaced; the spelling that came first stays", () => {
    const { tickets } = readTickets("Time;Truck;Customer;Gross kg;Tare kg\n07:10;Tipper 1;Upper Farm;25180;9200\n07:40;TIPPER  1;upper farm;25000;\n");
    expect(tickets).toMatchObject([{ truck: "Tipper 1", owner: "Upper Farm" }, { truck: "Tipper 1", owner: "Upper Farm", mass: 15_800 }]);
  });
});

describe("times over midnight", () => {
  const times = (head: string, ...rows: string[]) => readTickets(`${[head, ...rows].join("\n")}\n`).tickets.map(({ row, at }) => [row, at / 3600]);

  it("go on past 24 o'clock, with dates, without them, and with the date that the shift began on", () => {
    expect(times("Date;Time;Net kg", "2026-12-31;23:30;11000", "2027-01-01;00:30;11000")).toEqual([[2, 23.5], [3, 24.5]]);
    expect(times("Time;Net kg", "23:30;11000", "00:30;11000", "23:45;11001")).toEqual([[2, 23.5], [4, 23.75], [3, 24.5]]);
    expect(times("Date;Time;Net kg", "2026-09-14;23:30;11000", "2026-09-14;00:30;11000", "2026-09-15;17:00;11000")).toEqual([[2, 23.5], [3, 24.5], [4, 41]]);
  });

  it("are read backwards where the newest stands first", () => {
    expect(times("Time;Net kg", "00:30;11000", "23:30;11001", "23:00;11002", "22:00;11003", "21:00;11004")).toEqual([[6, 21], [5, 22], [4, 23], [3, 23.5], [2, 24.5]]);
  });

  it("are read backwards where the newest stands first under dates too, be they those that the shift began on", () => {
    const head = "Date;Time;Truck;Gross kg;Tare kg";
    const rows = ["2026-09-15;17:10;A;20100;9000", "2026-09-14;00:30;A;20000;", "2026-09-14;23:30;A;20010;", "2026-09-14;22:30;A;20020;9000"];
    expect(times(head, ...rows)).toEqual([[5, 22.5], [4, 23.5], [3, 24.5], [2, 41 + 10 / 60]]);
    expect(times(head, ...[...rows].reverse())).toEqual([[2, 22.5], [3, 23.5], [4, 24.5], [5, 41 + 10 / 60]]);
  });

  it("may lie between coming and leaving", () => {
    expect(readTickets("Time;Out;Net kg\n23:57;00:04;11000\n").tickets[0]).toMatchObject({ at: 86_220, out: 86_640 });
  });

  it("are read with hours of twelve, seconds and a date in the same cell", () => {
    expect(times("Time;Net kg", "2026-09-14 12:05 AM;11000", "2026-09-14T13:06:30;11001", "2026-09-14 1:07:00 pm;11002").map(([, at]) => at! * 3600)).toEqual([300, 47_190, 47_220]);
  });
});

/** A file of rows of which some are sound and some are anything. */
const cell = fc.oneof(fc.string({ maxLength: 8 }), fc.constantFrom("", "07:10", "23:59", "2026-09-14", "15980", "12,5", "12.5", "A", "\"", "=1+1", "-3", "1e9", "15 980", "9.200 kg"));
const anyRow = fc.array(cell, { minLength: 1, maxLength: 11 }).map((cells) => cells.map((text) => text.replace(/[\r\n]/gu, " ")).join(";"));
const soundRow = fc.record({ minute: fc.integer({ min: 0, max: 1439 }), truck: fc.integer({ min: 1, max: 4 }), gross: fc.integer({ min: 12_000, max: 40_000 }), tare: fc.integer({ min: 7000, max: 11_000 }) })
  .map(({ minute, truck, gross, tare }) => `;2026-09-14;${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")};;T${truck};${gross};${tare};;`);

describe("whatever the file holds", () => {
  it("every row that is not blank is a ticket or refused with a sentence, none is lost and none counted twice", () => {
    fc.assert(fc.property(fc.array(fc.oneof(soundRow, anyRow), { maxLength: 30 }), (rows) => {
      const { tickets, refused, questions, waiting, rows: count } = readTickets(`${[HEAD, ...rows].join("\n")}\n`, { decimal: "point", dates: "ymd" });
      expect(questions).toEqual([]);
      const full = rows.filter((row) => row.trim() !== "").length;
      expect([count, waiting, tickets.length + refused.length]).toEqual([full, 0, full]);
      const told = [...tickets, ...refused].map(({ row }) => row);
      expect(new Set(told).size).toBe(full);
      for (const { because } of refused) expect(because).toMatch(/^[A-Z].*\.$/su);
      for (const { mass, at } of tickets) expect(mass > 0 && Number.isFinite(at)).toBe(true);
    }), runs(500));
  });

  it("sound rows keep their mass to the kilogram, in whichever unit, mark and delimiter they are printed", () => {
    const way = fc.constantFrom(["kg", "point", ";"], ["kg", "comma", "\t"], ["t", "comma", ";"], ["t", "point", ","], ["lb", "point", ","]) as fc.Arbitrary<readonly ["kg" | "t" | "lb", "point" | "comma", string]>;
    const loads = fc.uniqueArray(fc.record({ minute: fc.integer({ min: 0, max: 1439 }), kg: fc.integer({ min: 1, max: 40_000 }) }), { selector: ({ minute }) => minute, minLength: 1, maxLength: 20 });
    fc.assert(fc.property(way, loads, ([unit, decimal, mark], all) => {
      const printed = (kg: number) => (unit === "kg" ? String(kg) : (unit === "t" ? kg / 1000 : kg / 0.45359237).toFixed(3)).replace(".", decimal === "comma" ? "," : ".");
      const clock = (minute: number) => `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, "0")}`;
      const text = [["Time", "Truck", `Net ${unit}`], ...all.map(({ minute, kg }) => [clock(minute), "A", printed(kg)])].map((row) => row.join(mark)).join("\n");
      const { tickets } = readTickets(text, { decimal });
      expect(tickets.map(({ row, mass }) => [row, Math.round(mass)]).sort((a, b) => a[0]! - b[0]!)).toEqual(all.map(({ kg }, i) => [i + 2, kg]));
    }), runs(300));
  });
});
