import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { WeighedDay } from "../../sim/study/tickets/study.ts";
import { meadow } from "./meadow.ts";
import { serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let served: Served;
beforeAll(async () => { served = await serveApp(); });
afterAll(() => served.close());

const HEAD = "Date;Time;Truck;Net";
const ask = (more: object) => fetch(`${served.url}/api/v1/studies`, {
  method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ kind: "tickets", scenario: meadow, rehearsals: 2, ...more }),
});
const errors = async (more: object) => {
  const answer = await ask(more);
  expect(answer.status).toBe(422);
  return ((await answer.json()) as { errors: { pointer: string; detail: string }[] }).errors;
};

describe("weigh tickets that are sent", () => {
  it("come back with a question at the key that answers it, all open ones at once", async () => {
    const csv = `${HEAD}\n05/09/2026;07:10;A;15,980\n05/09/2026;07:31;B;16,020\n`;
    const asked = await errors({ csv });
    expect(asked.map(({ pointer }) => pointer)).toEqual(["/decimal", "/dates", "/unit"]);
    expect(asked[0]!.detail).toBe("Decimal point or decimal comma? \"15,980\" in row 2 can be read with either, and so can every other mass.");
    expect((await errors({ csv, decimal: "comma", dates: "dmy" })).map(({ pointer }) => pointer)).toEqual(["/unit"]);
    expect((await ask({ csv, decimal: "comma", dates: "dmy", unit: "t" })).status).toBe(202);
  });

  it("are asked for their columns, and take them by heading", async () => {
    const csv = "When;Lorry;Net kg\n07:10;A;15980\n07:31;B;16020\n";
    expect((await errors({ csv })).map(({ pointer }) => pointer)).toEqual(["/columns"]);
    expect((await ask({ csv, columns: { time: "When", truck: "Lorry" } })).status).toBe(202);
    expect((await errors({ csv, columns: { lorry: "Lorry" } })).map(({ pointer }) => pointer)).toEqual(["/columns/lorry"]);
  });

  it("are refused in a sentence when no row is a ticket, when they are no text, and when a wish is none of its words", async () => {
    const [none] = await errors({ csv: `${HEAD} kg\n2026-09-14;25:10;A;15980\n` });
    expect(none).toEqual({ pointer: "/csv", detail: "Two tickets are the fewest that tell of a day; no row is one. Row 2: The time is \"25:10\": no time of day." });
    expect((await errors({ csv: "" })).map(({ pointer }) => pointer)).toEqual(["/csv"]);
    expect((await errors({ csv: 7 })).map(({ pointer }) => pointer)).toEqual(["/csv"]);
    expect((await errors({ csv: HEAD, decimal: "dot", unit: "stone" })).map(({ pointer }) => pointer)).toEqual(["/decimal", "/unit"]);
  });

  it("are read to the last row, what is refused told with its reason, and the rest held against the scenario", async () => {
    const taken = await ask({ csv: `\ufeff${HEAD} kg\n2026-09-14;07:10;A;15980\n2026-09-14;07:31;B;no load\n2026-09-14;07:40;C;16020\n` });
    const place = served.url + (taken.headers.get("Location") ?? "");
    await (await fetch(`${place}/events`)).text();
    const { result } = (await (await fetch(place)).json()) as { result: WeighedDay };
    expect([result.reading.rows, result.reading.tickets, result.reading.refused.map(({ row }) => row)]).toEqual([3, 2, [3]]);
    expect(result.days[0]!.tonnes).toBe(32);
    expect(result.judgement.rehearsals).toBe(2);
  });
});
