import { readdirSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { LIMITS } from "../../server/limits.ts";
import { threadRunner } from "../../server/runner.ts";
import type { Runner } from "../../server/runner.ts";
import { studyAsked } from "../../server/studies/asked.ts";
import type { StudyQuestion } from "../../server/studies/kinds.ts";
import { ownThreadStudies, threadStudies } from "../../server/studies/runner.ts";
import type { StudyProgress } from "../../server/studies/runner.ts";
import { BUILDING_MS, buildHouse } from "./built.ts";
import type { BuiltHouse } from "./built.ts";
import { endlessMeadow, meadow } from "./meadow.ts";
import { post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let house: BuiltHouse;
let runner: Runner;
let served: Served;

beforeAll(async () => {
  house = buildHouse();
  runner = threadRunner(house.url("worker.js"), LIMITS);
  served = await serveApp({ runner });
}, BUILDING_MS);
afterAll(async () => {
  await served.close();
  await runner.close();
  house.remove();
});

const ask = (url: string, more: object) => post(url, JSON.stringify({ scenario: meadow, rehearsals: 1, ...more }));

describe("rehearsals on threads", () => {
  it("are one a core", () => {
    expect(runner.atOnce).toBe(availableParallelism());
  });

  it.each([
    ["one day", { rehearsals: 1 }],
    ["days shared out among three threads", { rehearsals: 17 }],
    ["the rest of a day, on two of them", { rehearsals: 10, from: { at: "11:00" } }],
    ["a day that never ends", { rehearsals: 17, scenario: endlessMeadow }],
  ])("give the same bytes as on the server's own thread: %s", async (_, question) => {
    const three = threadRunner(house.url("worker.js"), LIMITS, 3);
    const apps = [await serveApp(), await serveApp({ runner: three })];
    const [here, there] = await Promise.all(apps.map((app) => ask(app.url, question)));
    expect(await there!.text()).toBe(await here!.text());
    expect([there!.status, there!.headers.get("ETag")]).toEqual([here!.status, here!.headers.get("ETag")]);
    await Promise.all(apps.map((app) => app.close()));
    await three.close();
  });

  it("all answer when a hundred are asked for together, and the server is awake all the while", async () => {
    let answered = 0;
    const asked = Array.from({ length: 100 }, async (_, i) => {
      const answer = await ask(served.url, { seed: 1_000 + i });
      answered += 1;
      return answer;
    });
    const pulse = await fetch(`${served.url}/livez`);
    expect(pulse.status).toBe(200);
    expect(answered).toBeLessThan(100);
    const answers = await Promise.all(asked);
    expect(answers.map((answer) => answer.status)).toEqual(answers.map(() => 200));
    expect(new Set(answers.map((answer) => answer.headers.get("Location"))).size).toBe(100);
  });

  it("end when one takes too long, the thread with it, and the next finds a new one", async () => {
    const strict = await serveApp({ runner, limits: { runMs: 1 } });
    const stopped = await ask(strict.url, { rehearsals: 2_000, seed: 9 });
    expect(stopped.status).toBe(504);
    expect(strict.reports).toEqual([]);
    await strict.close();
    expect((await ask(served.url, { seed: 10 })).status).toBe(200);
  });

  it("end when one runs away, in time or in memory, and the server lives on", async () => {
    const runaways = { time: ["for (;;);", 504], memory: ["const all = []; for (;;) all.push(new Array(10_000).fill(0.5));", 422] } as const;
    for (const [what, [body, status]] of Object.entries(runaways)) {
      writeFileSync(join(house.folder, "dist", "server", `${what}.js`), `export default () => { ${body} };`);
      const limits = { ...LIMITS, threadHeapMb: 32, runMs: what === "time" ? 50 : LIMITS.runMs };
      const runner = threadRunner(house.url(`${what}.js`), limits, 1);
      const app = await serveApp({ runner, limits });
      for (const seed of [11, 12]) {
        const stopped = await ask(app.url, { seed });
        expect(stopped.status, what).toBe(status);
        expect(((await stopped.json()) as { detail: string }).detail).toMatch(what === "time" ? /not finished after 0.05 seconds/ : /took more than 32 MB/);
      }
      expect((await fetch(`${app.url}/livez`)).status).toBe(200);
      expect(app.reports).toEqual([]);
      await app.close();
      await runner.close();
    }
  });

  it("end for good when the runner is closed, and whoever is waiting or asks then is told that the server ends, which is no failure", async () => {
    const other = threadRunner(house.url("worker.js"), LIMITS, 1);
    const app = await serveApp({ runner: other });
    const waiting = [1, 2, 3].map((seed) => ask(app.url, { seed, rehearsals: 1_000 }));
    await fetch(`${app.url}/livez`);
    await other.close();
    for (const answer of [...await Promise.all(waiting), await ask(app.url, { seed: 4 })]) expect(answer.status).toBe(503);
    expect(app.reports).toEqual([]);
    await app.close();
  });

  it("fail one by one, and do not take the server with them, when the worker cannot be had", async () => {
    const broken = threadRunner(house.url("nowhere.js"), LIMITS, 1);
    const app = await serveApp({ runner: broken });
    for (const seed of [21, 22, 23]) {
      expect((await ask(app.url, { seed })).status).toBe(500);
      expect((await fetch(`${app.url}/livez`)).status).toBe(200);
    }
    expect(app.reports.length).toBe(3);
    await app.close();
    await broken.close();
  });
});

describe("studies on threads", () => {
  const small = { ...meadow, fields: [{ ...meadow.fields[0], area: "1 ha" }] };
  const fewer = { ...small, trucks: [{ ...meadow.trucks[0], count: 1 }] };
  const questionOf = (body: object): StudyQuestion => studyAsked(JSON.stringify(body), LIMITS).question;
  const few = questionOf({ kind: "compare", scenarios: [small, fewer], rehearsals: 20 });
  const many = questionOf({ kind: "compare", scenarios: [small, fewer], rehearsals: 600 });
  const never = new AbortController().signal;
  const leader = (name = "studyleader") => house.url(`${name}.js`);
  const threads = () => readdirSync("/proc/self/task");

  it("give the same bytes as on the server's own thread, on one thread and on several", async () => {
    for (const question of [few, many]) {
      const heard: StudyProgress[] = [];
      const there = await threadStudies(leader(), LIMITS, 2).run(question, (progress) => heard.push(progress), never);
      expect(there).toBe(await ownThreadStudies(LIMITS).run(question, () => {}, never));
      expect(heard[0]).toMatchObject({ done: 0, expected: question === few ? 40 : 1_200 });
      for (let i = 1; i < heard.length; i += 1) expect(heard[i]!.done).toBeGreaterThanOrEqual(heard[i - 1]!.done);
    }
  });

  it.runIf(process.platform === "linux")("end at once when they are cancelled, with all their threads", async () => {
    // Node starts threads of its own for files, once and for all.
    await readFile(import.meta.filename);
    const before = new Set(threads());
    const itsOwn = () => threads().filter((thread) => !before.has(thread));
    const stop = new AbortController();
    const long = questionOf({ kind: "compare", scenarios: [meadow, { ...meadow, name: "B" }], rehearsals: 5_000 });
    let begun = () => {};
    const hasBegun = new Promise<void>((resolve) => { begun = resolve; });
    const run = threadStudies(leader(), LIMITS, 2).run(long, ({ done }) => { if (done > 0) begun(); }, stop.signal);
    await hasBegun;
    // The one that leads and two that rehearse.
    expect(itsOwn().length).toBeGreaterThan(2);
    stop.abort(new Error("cancelled"));
    await expect(run).rejects.toThrow("cancelled");
    // If they go on, the test runs out of time.
    while (itsOwn().length > 0) await new Promise((resolve) => setImmediate(resolve));
  });

  it("that run away are stopped, in time and in memory, and one that falls over is told as failed; the server lives on", async () => {
    const runaways = { longstudy: "for (;;);", widestudy: "const all = []; for (;;) all.push(new Array(10_000).fill(0.5));", brokenstudy: "throw new Error('secret');" };
    for (const [name, body] of Object.entries(runaways)) {
      writeFileSync(join(house.folder, "dist", "server", `${name}.js`), body);
      const limits = { ...LIMITS, threadHeapMb: 32, studyMs: name === "longstudy" ? 50 : LIMITS.studyMs };
      const app = await serveApp({ studies: threadStudies(leader(name), limits, 2), limits });
      const asked = await fetch(`${app.url}/api/v1/studies`, { method: "POST", body: JSON.stringify({ kind: "quote", scenario: small }), headers: { "Content-Type": "application/json" } });
      const address = app.url + asked.headers.get("Location");
      await (await fetch(`${address}/events`)).text();
      const told = (await (await fetch(address)).json()) as { state: string; because: string };
      expect([told.state, told.because]).toEqual(["failed", expect.stringMatching({ longstudy: /not done after 0.05 seconds/, widestudy: /more than 32 MB/, brokenstudy: /went wrong inside/ }[name]!)]);
      expect(app.reports.length).toBe(name === "brokenstudy" ? 1 : 0);
      expect((await fetch(`${app.url}/livez`)).status).toBe(200);
      await app.close();
    }
  });
});
