/** The rest of a day, over the API. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Findings } from "../../sim/findings/types.ts";
import { meadow } from "./meadow.ts";
import { post, serveApp, type Served } from "./served.ts";

let served: Served;
beforeAll(async () => { served = await serveApp(); });
afterAll(() => served.close());

const from = { at: "12:10", delivered: [{ field: "Strip", mass: "150 t" }], apron: "30 t", onTheRoad: 1, machines: [{ name: "Roller", down: "until 14:00" }] };
const ask = (body: object) => post(served.url, JSON.stringify({ scenario: meadow, rehearsals: 2, ...body }));
const told = async (answer: Response) => (await answer.json()) as { id: string; findings: Findings; log: string };

describe("a rehearsal from how things stand", () => {
  it("tells of the rest of the day, under an id of its own that is the same for the same state", async () => {
    const answer = await ask({ from });
    expect(answer.status).toBe(200);
    const { id, findings, log } = await told(answer);
    expect(findings.rest).toMatchObject({ from: "12:10", fields: [{ name: "Strip" }] });
    expect((await told(await ask({ from }))).id).toBe(id);
    expect((await told(await ask({ from: { ...from, apron: "20 t" } }))).id).not.toBe(id);
    const whole = await told(await ask({}));
    expect(whole.id).not.toBe(id);
    expect(whole.findings.rest).toBeUndefined();
    const [header] = (await (await fetch(served.url + log)).text()).split("\n");
    expect(JSON.parse(header!)).toMatchObject({ from: 12 * 3600 + 600, start: { at: 12 * 3600 + 600 } });
  });

  it("refuses a state that cannot be, with places that run into the body", async () => {
    const answer = await ask({ from: { ...from, at: "03:00", aprom: "3 t" } });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as { errors: { pointer: string }[] }).errors.map(({ pointer }) => pointer)).toEqual(["/from/aprom"]);
    const early = await ask({ from: { at: "03:00" } });
    expect([early.status, ((await early.json()) as { errors: { pointer: string }[] }).errors[0]!.pointer]).toEqual([422, "/from/at"]);
    expect((await ask({ from: "noon" })).status).toBe(422);
  });
});

describe("remedies for the rest of a day", () => {
  const study = (body: object) => fetch(`${served.url}/api/v1/studies`, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ kind: "fixes", scenario: meadow, rehearsals: 2, ...body }) });

  it("are a study of their own", async () => {
    const [taken, whole] = [await study({ from }), await study({})];
    expect([taken.status, whole.status]).toEqual([202, 202]);
    const { id } = (await taken.json()) as { id: string };
    expect(((await whole.json()) as { id: string }).id).not.toBe(id);
    await (await fetch(`${served.url}/api/v1/studies/${id}/events`)).text();
    const done = (await (await fetch(`${served.url}/api/v1/studies/${id}`)).json()) as { state: string; result: { from?: string; rows: { family: string }[] } };
    expect([done.state, done.result.from]).toEqual(["done", "12:10"]);
    expect(done.result.rows.some(({ family }) => family === "earlier")).toBe(false);
  });

  it("refuse a state that cannot be", async () => {
    const answer = await study({ from: { ...from, onTheRoad: 9 } });
    expect([answer.status, ((await answer.json()) as { errors: { pointer: string }[] }).errors[0]!.pointer]).toEqual([422, "/from/onTheRoad"]);
  });
});
