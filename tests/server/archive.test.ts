import { request as plainRequest } from "node:http";
import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Limits } from "../../server/limits.ts";
import { readTemplates } from "../../server/templates.ts";
import { meadow, meadowYaml } from "./meadow.ts";
import { bare, post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";
import { newFolder, removeFolders } from "../temporary.ts";

/** ms that the hook which fills the first server may take: one second on a quiet machine, many times that on a busy one. */
const FILLING_MS = 60_000;
const TYPE = "application/x-ndjson";
const examples = readTemplates(join(import.meta.dirname, "../../scenarios"));
const small = { ...meadow, fields: [{ ...meadow.fields[0], area: "1 ha" }] };

/** A server with a scenario of two revisions, one that was taken away, a rehearsal and a study. */
let full: Served;
/** All of it, as one file. */
let archive: string;
let rehearsal: string;
let study: string;

const put = (server: Served, id: string, body: string, headers: Record<string, string> = {}) =>
  fetch(`${server.url}/api/v1/scenarios/${id}`, { method: "PUT", body, headers: { "Content-Type": "application/json", ...headers } });
const tagOf = (answer: Response) => answer.headers.get("ETag") ?? "";
const give = (server: Served) => fetch(`${server.url}/api/v1/archive`);
const take = (server: Served, body: RequestInit["body"], headers: Record<string, string> = {}) =>
  fetch(`${server.url}/api/v1/archive`, { method: "POST", body: body as string, headers: { "Content-Type": TYPE, ...headers } });
const saved = async (server: Served) => ((await (await fetch(`${server.url}/api/v1/scenarios`)).json()) as { saved: { id: string; revision: number }[] }).saved;
const detail = async (answer: Response) => ((await answer.json()) as { detail: string }).detail;
/** A server on a folder of its own. */
async function served(limits: Partial<Limits> = {}) {
  const folder = newFolder();
  return { folder, app: await serveApp({ folder, templates: examples, limits }) };
}

beforeAll(async () => {
  full = await serveApp({ folder: newFolder() });
  const first = await put(full, "mine", JSON.stringify(small));
  await put(full, "mine", meadowYaml, { "If-Match": tagOf(first), "Content-Type": "application/yaml" });
  const gone = await put(full, "gone", JSON.stringify(meadow));
  await fetch(`${full.url}/api/v1/scenarios/gone`, { method: "DELETE", headers: { "If-Match": tagOf(gone) } });
  rehearsal = (await post(full.url, JSON.stringify({ scenario: small, rehearsals: 2 }))).headers.get("Location") ?? "";
  study = (await fetch(`${full.url}/api/v1/studies`, { method: "POST", body: JSON.stringify({ kind: "quote", scenario: small, rehearsals: 2 }), headers: { "Content-Type": "application/json" } })).headers.get("Location") ?? "";
  await (await fetch(`${full.url}${study}/events`)).text();
  await full.write();
  archive = await (await give(full)).text();
}, FILLING_MS);
afterAll(async () => {
  await full.close();
  removeFolders();
});

describe("the archive", () => {
  it("is one file to save, whose last line says that it is whole", async () => {
    const answer = await give(full);
    expect([answer.status, answer.headers.get("Content-Type"), answer.headers.get("Cache-Control")]).toEqual([200, TYPE, "no-store"]);
    expect(answer.headers.get("Content-Disposition")).toMatch(/^attachment; filename="[\w.-]+"$/);
    const lines = (await answer.text()).trimEnd().split("\n").map((line) => Object.keys(JSON.parse(line) as object)[0]);
    expect(lines).toEqual(["archive", "revision", "revision", "revision", "revision", "answer", "answer", "end"]);
    expect((await bare(full.port, "/api/v1/archive", {}, "HEAD")).status).toBe(200);
  });

  it("brings scenarios with every revision, rehearsals and studies elsewhere, to the byte and under the same tags", async () => {
    const { app, folder } = await served();
    const answer = await take(app, archive);
    expect([answer.status, await answer.json()]).toEqual([200, { added: 2, continued: 0, same: 0, renamed: [], answers: 2 }]);
    for (const path of ["/api/v1/scenarios/mine", "/api/v1/scenarios/mine/revisions", "/api/v1/scenarios/mine/revisions/1", "/api/v1/scenarios/gone/revisions", rehearsal, `${rehearsal}/log`, study]) {
      const [there, here] = await Promise.all([full, app].map((server) => fetch(server.url + path)));
      expect([await here!.text(), tagOf(here!)], path).toEqual([await there!.text(), tagOf(there!)]);
      expect(here!.status, path).toBe(200);
    }
    expect((await fetch(`${app.url}/api/v1/scenarios/gone`)).status).toBe(404);
    expect(readdirSync(folder).some((name) => name.endsWith(".part"))).toBe(false);
    expect(await (await take(app, archive)).json()).toEqual({ added: 0, continued: 0, same: 2, renamed: [], answers: 0 });
    await app.close();
  });

  it("writes over nothing: another scenario of the name stays, also a worked example, and whoever read it may change it", async () => {
    const { app } = await served();
    const ours = await put(app, "mine", JSON.stringify(meadow));
    expect(await (await take(app, archive)).json()).toMatchObject({ added: 1, renamed: [{ from: "mine", to: "mine-imported" }] });
    expect(await (await fetch(`${app.url}/api/v1/scenarios/mine`)).text()).toBe(JSON.stringify(meadow));
    expect(await (await fetch(`${app.url}/api/v1/scenarios/mine-imported`, { headers: { Accept: "application/yaml" } })).text()).toBe(meadowYaml);
    expect((await put(app, "mine", JSON.stringify({ ...meadow, name: "Mine" }), { "If-Match": tagOf(ours) })).status).toBe(200);
    const plain = await serveApp();
    const id = examples[0]!.id;
    await put(plain, id, JSON.stringify(meadow));
    expect(await (await take(app, await (await give(plain)).text())).json()).toMatchObject({ renamed: [{ from: id, to: `${id}-imported` }] });
    await plain.close();
    await app.close();
  });
});

describe("a file that is sent as an archive", () => {
  it("is taken whole or not at all, with the reason", async () => {
    const { app, folder } = await served();
    const cases: [string, RegExp][] = [
      [archive.slice(0, archive.length / 2), /not JSON|breaks off/], [archive.split("\n").slice(0, 3).join("\n"), /breaks off: its last line is missing/],
      [archive.replace("Test meadow", "Rest meadow"), /was altered since it was made/], [archive.replace("\"version\":2", "\"version\":3"), /of version 3, not 2/],
      ["{}", /no archive of Clampside/], ["text", /line 1 is not JSON/], ["", /is empty/],
    ];
    for (const [body, words] of cases) {
      const answer = await take(app, body);
      expect([answer.status, await detail(answer)]).toEqual([422, expect.stringMatching(words)]);
    }
    expect(await saved(app)).toEqual([]);
    expect(readdirSync(folder).some((name) => name.endsWith(".part"))).toBe(false);
    expect(app.reports).toEqual([]);
    await app.close();
  });

  it("is of its type, not compressed, and no larger than is taken, whether it says its size or not", async () => {
    const { app } = await served({ archiveBytes: 1_000 });
    expect((await take(app, archive, { "Content-Type": "application/json" })).status).toBe(415);
    expect((await take(app, gzipSync(archive.slice(0, 100)), { "Content-Encoding": "gzip" })).status).toBe(415);
    expect((await take(app, archive)).status).toBe(413);
    const unsized = new ReadableStream({ start: (stream) => { stream.enqueue(new TextEncoder().encode(archive)); stream.close(); } });
    const answer = await fetch(`${app.url}/api/v1/archive`, { method: "POST", body: unsized, duplex: "half", headers: { "Content-Type": TYPE } } as RequestInit);
    expect([answer.status, await detail(answer)]).toEqual([413, "The body is larger than 1,000 bytes."]);
    expect(await saved(app)).toEqual([]);
    await app.close();
  });

  it("brings nothing when it does not fit the folder, and what was there before is still there", async () => {
    const { app } = await served({ folderBytes: 200_000 });
    await put(app, "ours", JSON.stringify(meadow));
    const plain = await serveApp();
    for (let i = 0; i < 20; i += 1) await put(plain, `s${i}`, JSON.stringify(meadow) + " ".repeat(20_000));
    const answer = await take(app, await (await give(plain)).text());
    expect([answer.status, await detail(answer)]).toEqual([507, expect.stringContaining("What was kept before is still there")]);
    expect((await saved(app)).map(({ id }) => id)).toEqual(["ours"]);
    expect(app.store.isSound()).toBe(true);
    await plain.close();
    await app.close();
  });

  it("comes alone: another one waits, out or in, and one whose sender hangs up is forgotten", async () => {
    const { app, folder } = await served();
    const sent = plainRequest(`${app.url}/api/v1/archive`, { method: "POST", headers: { "Content-Type": TYPE } });
    sent.on("error", () => {});
    sent.write(archive.slice(0, 200));
    // If it never begins, the test runs out of time.
    let answer: Response;
    do {
      answer = await give(app);
      await answer.text();
    } while (answer.status !== 503);
    expect(answer.headers.get("Retry-After")).toBe("10");
    expect((await take(app, archive)).status).toBe(503);
    sent.destroy();
    do {
      answer = await take(app, archive);
      await answer.text();
    } while (answer.status === 503);
    expect(answer.status).toBe(200);
    expect(app.reports).toEqual([]);
    expect(readdirSync(folder).some((name) => name.endsWith(".part"))).toBe(false);
    await app.close();
  });

  it("and was left behind by a server that was killed is cleared away by the next", async () => {
    const folder = newFolder();
    writeFileSync(join(folder, "archive.part"), "half an archive");
    const app = await serveApp({ folder });
    expect(readdirSync(folder)).not.toContain("archive.part");
    await app.close();
  });
});
