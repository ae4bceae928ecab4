import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { LIMITS } from "../../server/limits.ts";
import { threadRunner, usualThreads } from "../../server/runner.ts";
import type { Runner } from "../../server/runner.ts";
import { BUILDING_MS, buildHouse } from "./built.ts";
import type { BuiltHouse } from "./built.ts";
import { meadow } from "./meadow.ts";
import { post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let house: BuiltHouse;
let runner: Runner;
let served: Served;

beforeAll(async () => {
  house = buildHouse();
  runner = threadRunner(house.url("server/worker.js"), LIMITS);
  served = await serveApp({ runner });
}, BUILDING_MS);
afterAll(async () => {
  await served.close();
  await runner.close();
  house.remove();
});

const ask = (url: string, more: object) => post(url, JSON.stringify({ scenario: meadow, rehearsals: 1, ...more }));

describe("rehearsals on threads", () => {
  it("leave one core to the server, and have at least one", () => {
    expect(usualThreads()).toBeGreaterThanOrEqual(1);
    expect(runner.atOnce).toBe(usualThreads());
  });

  it("give the same bytes as on the server's own thread", async () => {
    const own = await serveApp();
    const there = await ask(served.url, { rehearsals: 5 });
    const here = await ask(own.url, { rehearsals: 5 });
    expect(await there.text()).toBe(await here.text());
    expect(there.headers.get("ETag")).toBe(here.headers.get("ETag"));
    await own.close();
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
      const runner = threadRunner(house.url(`server/${what}.js`), limits, 1);
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

  it("end for good when the runner is closed", async () => {
    const other = threadRunner(house.url("server/worker.js"), LIMITS, 2);
    await other.close();
    const app = await serveApp({ runner: other });
    expect((await ask(app.url, {})).status).toBe(500);
    await app.close();
  });

  it("fail one by one, and do not take the server with them, when the worker cannot be had", async () => {
    const broken = threadRunner(house.url("server/nowhere.js"), LIMITS, 1);
    const app = await serveApp({ runner: broken });
    expect((await ask(app.url, {})).status).toBe(500);
    expect((await fetch(`${app.url}/livez`)).status).toBe(200);
    expect(app.reports.length).toBe(1);
    await app.close();
    await broken.close();
  });
});
