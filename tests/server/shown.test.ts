/** The day that an answer shows is told when it is asked for: from the question, or as it was written by an earlier version. */
import { deflateSync } from "node:zlib";
import { afterAll, describe, expect, it } from "vitest";
import { ownThreadRunner, SentHome, type Runner } from "../../server/runner.ts";
import { newFolder, removeFolders } from "../temporary.ts";
import { meadow, meadowYaml } from "./meadow.ts";
import { post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";

afterAll(removeFolders);

const PARTS = ["", "/log", "/measures.csv", "/trips.csv", "/lifts.csv"];
const read = ({ url }: Served, address: string) => Promise.all(PARTS.map(async (part) => {
  const answer = await fetch(url + address + part);
  return [answer.status, answer.headers.get("ETag"), await answer.text()];
}));
const where = (answer: Response) => answer.headers.get("Location")!;

/** A folder in which one question was answered, and the address of the answer. */
async function answered(text: string, type = "application/json", query = ""): Promise<{ folder: string; address: string; before: unknown[] }> {
  const folder = newFolder();
  const served = await serveApp({ folder });
  const answer = await fetch(`${served.url}/api/v1/rehearsals${query}`, { method: "POST", headers: { "Content-Type": type }, body: text });
  expect(answer.status).toBe(200);
  const before = await read(served, where(answer));
  await served.close();
  return { folder, address: where(answer), before };
}

describe("the day of an answer", () => {
  it.each([
    ["asked for as JSON", JSON.stringify({ scenario: meadow, rehearsals: 7, seed: 3 }), "application/json", ""],
    ["taken up at eleven", JSON.stringify({ scenario: meadow, rehearsals: 3, from: { at: "11:00" } }), "application/json", ""],
    ["asked for as a scenario file", meadowYaml, "application/yaml", "?rehearsals=5&seed=9"],
  ])("is told by the next server, byte for byte, log and tables alike: %s", async (_, text, type, query) => {
    const { folder, address, before } = await answered(text, type, query);
    const next = await serveApp({ folder });
    expect(await read(next, address)).toEqual(before);
    expect(before.map((part) => (part as [number])[0])).toEqual(PARTS.map(() => 200));
    await next.close();
  });

  it("is told as described where it cannot be told now: by a server that ends, or in more time than a run may take", async () => {
    const asked = JSON.stringify({ scenario: meadow, rehearsals: 1 });
    const ending = await serveApp({ runner: { ...ownThreadRunner(), log: async () => { throw new SentHome(); } } });
    expect((await read(ending, where(await post(ending.url, asked)))).map(([status]) => status)).toEqual([200, 503, 200, 503, 503]);
    await ending.close();
    const log: Runner["log"] = (_, signal) => new Promise((__, failed) => signal.addEventListener("abort", () => failed(new Error("the thread was ended"))));
    const slow = await serveApp({ runner: { ...ownThreadRunner(), log }, limits: { runMs: 5 } });
    const [, told] = await read(slow, where(await post(slow.url, asked)));
    expect(told![0]).toBe(504);
    await slow.close();
  });

  it("is named by the answer and by the log alike: which of the rehearsals, of which seed", async () => {
    const served = await serveApp();
    const answer = await post(served.url, JSON.stringify({ scenario: meadow, rehearsals: 9, seed: 4 }));
    const { rehearsal } = (await answer.json()) as { rehearsal: number };
    const [header] = (await (await fetch(`${served.url}${where(answer)}/log`)).text()).split("\n");
    expect(JSON.parse(header!)).toMatchObject({ seed: 4, rehearsal });
    await served.close();
  });

  it("that was written out by an earlier version is given as it was written", async () => {
    const { folder, address, before } = await answered(JSON.stringify({ scenario: meadow, rehearsals: 1 }));
    const served = await serveApp({ folder });
    const [, , log] = before[1] as [number, string, string];
    const kept = served.store.answers.packed("rehearsal", address.split("/").at(-1)!)!;
    served.store.answers.put([{ ...kept, question: null, log: deflateSync(log) }]);
    expect(await read(served, address)).toEqual(before);
    await served.close();
  });

  it.each([
    ["another question", { form: "json", text: JSON.stringify({ scenario: meadow, rehearsals: 2 }), query: "" }],
    ["one that is refused", { form: "json", text: "{}", query: "" }],
    ["no question at all", 5],
  ])("is told no more where %s stands behind it, and the findings stay", async (_, question) => {
    const { folder, address, before } = await answered(JSON.stringify({ scenario: meadow, rehearsals: 1 }));
    const served = await serveApp({ folder });
    const kept = served.store.answers.packed("rehearsal", address.split("/").at(-1)!)!;
    served.store.answers.put([{ ...kept, question: Buffer.from(JSON.stringify(question)) }]);
    const after = await read(served, address);
    expect(after.map(([status]) => status)).toEqual([200, 404, 200, 404, 404]);
    expect(after[0]).toEqual(before[0]);
    expect(JSON.parse(after[1]![2] as string)).toMatchObject({ detail: expect.stringContaining("cannot be told any more") });
    expect(served.reports).toEqual([]);
    await served.close();
  });
});
