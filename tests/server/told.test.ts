/** What a client is told who asked wrongly: a sentence of the house's own, with its place, for each address. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { KINDS } from "../../server/studies/kinds.ts";
import { meadow, meadowYaml } from "./meadow.ts";
import { serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let served: Served;
beforeAll(async () => { served = await serveApp(); });
afterAll(() => served.close());

interface Problem { readonly status: number; readonly detail: string; readonly errors?: readonly { readonly pointer: string; readonly detail: string }[] }
async function told(method: string, path: string, body?: unknown, headers: Record<string, string> = {}): Promise<Problem> {
  const text = body === undefined || typeof body === "string" ? body : JSON.stringify(body);
  const answer = await fetch(served.url + path, { method, headers: { ...(text === undefined ? {} : { "Content-Type": "application/json" }), ...headers }, ...(text === undefined ? {} : { body: text }) });
  return (await answer.json()) as Problem;
}
const YAML = { "Content-Type": "application/yaml" };

describe("A client who asks wrongly", () => {
  it.each(KINDS)("is told in words of our own what a study of kind %s wants, once a place", async (kind) => {
    const { status, errors } = await told("POST", "/api/v1/studies", { kind });
    expect(status).toBe(422);
    expect(errors!.length).toBeGreaterThan(0);
    for (const { detail } of errors!) expect(detail).not.toMatch(/invalid input|received|expected/iu);
    expect(new Set(errors!.map(({ pointer }) => pointer)).size).toBe(errors!.length);
  });

  it("is sent to the file of tickets when it is the file that is empty", async () => {
    const { errors } = await told("POST", "/api/v1/studies", { kind: "tickets", scenario: meadow, csv: "\n" });
    expect(errors).toEqual([{ pointer: "/csv", detail: expect.stringMatching(/^The file has no rows/u) as string }]);
  });

  it("is told which body each address takes", async () => {
    const bodies = await Promise.all([told("PUT", "/api/v1/scenarios/mine", "", YAML), told("POST", "/api/v1/rehearsals", "", YAML), told("POST", "/api/v1/studies", "")]);
    expect(bodies.map(({ status, detail }) => [status, detail])).toEqual([
      [400, "The body is empty. Send the scenario itself as application/json, or the file's own text as application/yaml."],
      [400, "The body is empty. Send the scenario as application/json, {\"scenario\": ...}, or the file's own text as application/yaml."],
      [400, "The body is empty. Send the question as application/json, {\"kind\": ...}."],
    ]);
    const types = await Promise.all([["PUT", "/api/v1/scenarios/mine"], ["POST", "/api/v1/rehearsals"], ["POST", "/api/v1/studies"]].map(([method, path]) => told(method!, path!, "x", { "Content-Type": "text/csv" })));
    expect(types.map(({ status, detail }) => [status, detail])).toEqual(bodies.map(({ detail }) => [415, detail.replace("The body is empty. ", "")]));
    // What is said would do does.
    const own = await fetch(`${served.url}/api/v1/scenarios/mine`, { method: "PUT", headers: { "Content-Type": "application/json" }, body: JSON.stringify(meadow) });
    expect(own.status).toBe(201);
  });

  it("is told of everything in the query that would go unheard", async () => {
    const inJson = await told("POST", "/api/v1/rehearsals?rehearsals=5", { scenario: meadow });
    const inYaml = await told("POST", "/api/v1/rehearsals?rehearsal=5&seed=2", meadowYaml, YAML);
    expect([inJson.status, inYaml.status]).toEqual([422, 422]);
    expect(inJson.errors).toEqual([{ pointer: "", detail: 'In the query: "rehearsals" is not read; a body of JSON holds all that is asked.' }]);
    expect(inYaml.errors).toEqual([{ pointer: "", detail: 'In the query: "rehearsal" is not read; rehearsals and seed are known there.' }]);
  });

  it("is told that it is the query where it is the query that is wrong", async () => {
    const { status, errors } = await told("POST", "/api/v1/rehearsals?rehearsals=two&seed=-1", meadowYaml, YAML);
    expect([status, errors]).toEqual([422, [
      { pointer: "", detail: "In the query: rehearsals are a whole number from 1 to 10,000." }, { pointer: "", detail: "In the query: the seed is a whole number from 0 to 9,007,199,254,740,991." },
    ]]);
  });

  it("is told the same of a change and of a taking away: what is kept must have been read", async () => {
    await fetch(`${served.url}/api/v1/scenarios/read-first`, { method: "PUT", headers: YAML, body: meadowYaml });
    const refused = await Promise.all([told("PUT", "/api/v1/scenarios/read-first", { ...meadow, name: "Another" }), told("DELETE", "/api/v1/scenarios/read-first")]);
    for (const { status, detail } of refused) expect([status, detail]).toEqual([428, "Only whoever has read what is kept may change it or take it away: send its ETag as If-Match, so that nobody's change is lost."]);
    expect((await told("GET", "/api/v1/scenarios/read-first", undefined, { Accept: "text/csv" })).detail).toBe("This can be had as application/json, application/yaml or text/yaml.");
  });
});
