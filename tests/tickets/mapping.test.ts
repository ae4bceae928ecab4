import { describe, expect, it } from "vitest";
import { columnsSaid, type Answers } from "../../sim/study/tickets/mapping.ts";
import { readTickets } from "../../sim/study/tickets/tickets.ts";

const asked = (text: string, answers: Answers = {}) => readTickets(text, answers).questions;
const about = (text: string, answers: Answers = {}) => asked(text, answers).map((question) => question.about);
const masses = (text: string, answers: Answers = {}) => readTickets(text, answers).tickets.map(({ mass }) => mass);
const file = (head: string, ...rows: string[]) => `${[head, ...rows].join("\n")}\n`;

describe("the decimal mark", () => {
  it("is asked, never guessed, when every number can be read with either", () => {
    const text = file("Time;Truck;Net kg", "07:10;A;12,345", "07:30;B;13,210");
    expect(asked(text)).toEqual([{ about: "decimal", answers: ["point", "comma"], sentence: "Decimal point or decimal comma? \"12,345\" in row 2 can be read with either, and so can every other mass." }]);
    expect(readTickets(text)).toMatchObject({ rows: 2, waiting: 2, tickets: [], refused: [] });
    expect(masses(text, { decimal: "point" })).toEqual([12_345, 13_210]);
    expect(masses(text, { decimal: "comma" })).toEqual([12.345, 13.21]);
  });

  it.each([
    ["a comma after a point", "12.345,0", 12_345], ["a comma before two digits", "12,34", 12.34], ["thousands apart twice", "1.012.345", null], ["a point before one digit", "12345.5", 12_345.5], ["a point after a comma", "12,345.5", 12_345.5],
  ])("is told by one number that cannot be read otherwise: %s", (_, number, kg) => {
    const text = file("Time;Truck;Net kg", `07:10;A;${number}`);
    expect(about(text)).toEqual([]);
    if (kg === null) expect(readTickets(text).refused[0]!.because).toMatch(/^The net is "1.012.345": no truck weighs more/u);
    else expect(masses(text)[0]).toBeCloseTo(kg, 9);
  });

  it("is asked when numbers contradict each other, and then refuses those that do not fit the answer and no other", () => {
    const text = file("Time;Truck;Net t", "07:10;A;12,34", "07:30;B;13.21");
    expect(about(text)).toEqual(["decimal"]);
    const { tickets, refused } = readTickets(text, { decimal: "comma" });
    expect([tickets.map(({ mass }) => mass), refused.map(({ row }) => row)]).toEqual([[12_340], [3]]);
    expect(refused[0]!.because).toBe("The net is \"13.21\": no number with a decimal comma.");
  });

  it("is not asked where no number has a mark", () => expect(about(file("Time;Truck;Net kg", "07:10;A;12345"))).toEqual([]));
});

describe("the order of dates", () => {
  it("is asked when every date can be read in more than one", () => {
    const text = file("Date;Time;Net kg", "05/09/2026;07:10;12345", "05/09/2026;07:30;13000");
    expect(asked(text)[0]).toMatchObject({ about: "dates", answers: ["dmy", "mdy"] });
    expect(about(text, { dates: "mdy" })).toEqual([]);
    expect(asked(file("Date;Time;Net kg", "14-9-26;07:10;12345"))[0]).toMatchObject({ about: "dates", answers: ["dmy", "ymd"] });
  });

  it.each(["14.09.2026", "09/14/2026", "2026-09-14", "2026/9/14", "14-9-2026"])("is told by a date that fits one only: %s", (date) => {
    const text = file("Date;Time;Net kg", `${date};07:10;12345`, "nothing;07:30;13000");
    expect(about(text)).toEqual([]);
    expect(readTickets(text)).toMatchObject({ tickets: [{ at: 25_800 }], refused: [{ row: 3 }] });
  });

  it("is asked when no order fits all, and refuses what does not fit the answer", () => {
    const text = file("Date;Time;Net kg", "14/09/2026;07:10;12345", "09/15/2026;07:30;13000");
    expect(about(text)).toEqual(["dates"]);
    expect(readTickets(text, { dates: "dmy" })).toMatchObject({ tickets: [{ row: 2 }], refused: [{ row: 3, because: "The date is \"09/15/2026\": there is no such day, read as dmy." }] });
  });
});

describe("the unit of masses", () => {
  it.each([["Net kg", "15980", 15_980], ["Net (t)", "15.98", 15_980], ["Net [lb]", "35000", 15_875.73295], ["Net", "15.98 t", 15_980], ["NET_WEIGHT_KGS", "15980", 15_980]])("stands in the heading or behind the number: %s, %s", (head, number, kg) => {
    expect(masses(file(`Time;Truck;${head}`, `07:10;A;${number}`))[0]).toBeCloseTo(kg, 3);
  });

  it("is asked when it stands nowhere, and when it is tons, of which there are two", () => {
    expect(about(file("Time;Truck;Net", "07:10;A;15980"))).toEqual(["unit"]);
    expect(asked(file("Time;Truck;Gross Tons;Tare Tons;Net Tons", "07:10;A;26.5;9.5;17.0")).map(({ about: what, sentence }) => [what, sentence])).toEqual([
      ["unit", "The masses are in tons, as \"Gross Tons\" says. Which unit is it, kg, t, lb or ton? (t is 1,000 kg, ton 2,000 lb.)"]]);
    expect(masses(file("Time;Truck;Net ton", "07:10;A;17.5"), { unit: "ton" })[0]).toBeCloseTo(17.5 * 2000 * 0.45359237, 6);
    expect(asked(file("Time;Truck;Net", "07:10;A;17.5 tons"))[0]!.sentence).toContain("(t is 1,000 kg, ton 2,000 lb.)");
    expect(masses(file("Time;Truck;Net", "07:10;A;17.5"), { unit: "ton" })[0]).toBeCloseTo(17.5 * 2000 * 0.45359237, 6);
  });
});

describe("the columns", () => {
  it("are found by their words below whatever a scale prints above them, and the rest is named as not read", () => {
    const { mapping, tickets } = readTickets(file("Yard scale, 14 September", "", "Docket No.;Time In;Vehicle;GROSS WEIGHT (kg);Tare kg;Remarks", "1;07:10;A;25180;9200;wet"));
    expect(mapping).toMatchObject({ headingRow: 3, ignored: ["Remarks"], columns: { ticket: 0, time: 1, truck: 2, gross: 3, tare: 4 } });
    expect(tickets).toMatchObject([{ row: 4, mass: 15_980, truck: "A" }]);
  });

  it("are asked when two could be the same, when one named is not there, and when time or masses are missing", () => {
    expect(asked(file("Time;Net kg;Weight kg", "07:10;15980;15980"))[0]!.sentence).toBe("Which column is net? \"Net kg\" (column 2) or \"Weight kg\" (column 3) could be; say it as net=heading.");
    expect(asked(file("Time;Net kg", "07:10;15980"), { columns: { truck: "Lorry" } })[0]!.sentence).toBe("There is no column \"Lorry\" for truck; row 1 has \"Time\" and \"Net kg\".");
    expect(asked(file("When;Net kg", "07:10;15980"))[0]!.sentence).toContain("Which column holds the time of weighing?");
    expect(asked(file("Time;Gross kg", "07:10;25180"))[0]!.sentence).toContain("Which columns hold the masses?");
    expect(asked("")[0]!.sentence).toBe("The file has no rows: a row of headings and a row for each load would do.");
  });

  it("are taken as said, whatever their words", () => {
    const text = file("Time;Net kg;Weight kg;In", "07:10;1;15980;22:00");
    expect(masses(text, { columns: { net: "weight KG", time: "Time" } })).toEqual([15_980]);
    expect(columnsSaid("net=Weight kg, time = Time")).toEqual({ net: "Weight kg", time: "Time" });
    expect(masses(file("Time;Mass kg;Mass kg", "07:10;1;15980"), { columns: { net: "column 3" } })).toEqual([15_980]);
    expect(about(file("Time;Net kg", "07:10;15980"), { columns: { net: "column 4" } })).toEqual(["columns"]);
    expect(() => columnsSaid("lorry=A")).toThrow("\"lorry\" is no column of a ticket; they are ticket, date,");
    expect(() => columnsSaid("net")).toThrow("Columns are said as name=heading");
  });

  it("are none where that is said, though the words of a heading would do", () => {
    const text = file("No;Time;Net kg", "7;07:10;15980", "7;07:30;15210");
    expect(masses(text)).toEqual([15_980]);
    expect(readTickets(text, { columns: { ticket: "" } })).toMatchObject({ questions: [], mapping: { ignored: ["No"] }, tickets: [{ mass: 15_980 }, { mass: 15_210 }] });
    expect(about(text, { columns: { time: "" } })).toEqual(["columns"]);
  });

  it("are shown where their words are in another language, below the title, with those that were known, so that the others can be said", () => {
    const text = file("Hofwaage;;;", "Zeit;Kipper;Netto;Field", "07:10;A;15,98;West", "07:30;B;15,21;West");
    expect(readTickets(text)).toMatchObject({ waiting: 2, mapping: { headingRow: 2, heading: ["Zeit", "Kipper", "Netto", "Field"], columns: { field: 3 } } });
    expect(masses(text, { columns: { time: "Zeit", net: "Netto" }, unit: "t" })).toEqual([15_980, 15_210]);
    expect(readTickets(file("Hofwaage;;", "Zeit;Kipper;Netto", "07:10;A;15,98")).mapping.headingRow).toBe(2);
  });
});
