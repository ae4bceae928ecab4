import { spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { join } from "node:path";
import alea from "seedrandom/lib/alea.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { LIMITS } from "../../server/limits.ts";
import { Store } from "../../server/store/store.ts";
import { addressOf } from "./addressof.ts";
import { BUILDING_MS, buildHouse } from "./built.ts";
import type { BuiltHouse } from "./built.ts";
import { meadow } from "./meadow.ts";
import { post } from "./served.ts";
import { newFolder, removeFolders } from "../temporary.ts";

/** Times the server is killed; a sample in the usual run. */
const KILLS = process.env.CLAMPSIDE_LONG ? 200 : 4;
const CLIENTS = 5;
/** ms; a kill and what follows took ten seconds and more on a machine with ten times as much to do as it had processors. */
const PATIENCE = process.env.CLAMPSIDE_LONG ? 10_800_000 : 120_000;
/** Saves acknowledged before a kill, at the most. */
const MOST_SAVES = 60;

let house: BuiltHouse;
let server: ChildProcess | undefined;
beforeAll(() => { house = buildHouse(); }, BUILDING_MS);
afterAll(() => {
  server?.kill("SIGKILL");
  house.remove();
  removeFolders();
});

/** The built server on a folder, once it has an address. */
async function started(folder: string): Promise<{ url: string; ended: Promise<unknown> }> {
  const child = spawn(process.execPath, [join(house.folder, "dist/server/cli/main.js"), "serve", "--port", "0", "--data", folder], { stdio: ["ignore", "pipe", "inherit"] });
  server = child;
  const ended = new Promise((resolve) => child.on("close", resolve));
  return { url: await addressOf(child), ended };
}

describe("a server that is killed in the middle of saves", () => {
  it(`has every save it acknowledged, to the letter, ${KILLS} times out of ${KILLS}, and its database is sound`, async () => {
    const folder = newFolder();
    const draw = alea("kill");
    /** "id revision" -> what was acknowledged */ const acknowledged = new Map<string, string>();
    const attempted = new Set<string>();
    let count = 0;

    for (let kill = 0; kill < KILLS; kill += 1) {
      const { url, ended } = await started(folder);
      let left = 1 + Math.floor(draw() * MOST_SAVES);
      const turns = Math.floor(draw() * 50);

      /** Saves under one name again and again; the last name is everybody's. */
      const saves = async (id: string) => {
        for (;;) {
          const address = `${url}/api/v1/scenarios/${id}`;
          const tag = (await fetch(address, { method: "HEAD" })).headers.get("ETag");
          const text = JSON.stringify({ ...meadow, name: `save ${count += 1}` });
          attempted.add(text);
          const answer = await fetch(address, { method: "PUT", body: text, headers: { "Content-Type": "application/json", ...(tag === null ? {} : { "If-Match": tag }) } });
          if (!answer.ok) {
            // Somebody else was first: with the shared name only.
            expect([id, [409, 412, 428].includes(answer.status)]).toEqual(["shared", true]);
            continue;
          }
          // The status is the acknowledgement; which revision it was stands in the tag already.
          acknowledged.set(`${id} ${answer.headers.get("ETag")?.slice(1).split("-")[0]}`, text);
          left -= 1;
          if (left === 0) {
            for (let i = 0; i < turns; i += 1) await new Promise((resolve) => setImmediate(resolve));
            server!.kill("SIGKILL");
          }
        }
      };
      const rehearses = async () => {
        for (;;) await (await post(url, JSON.stringify({ scenario: meadow, rehearsals: 1, seed: count += 1 }))).text();
      };
      // What fetch throws when the other end is gone.
      const untilKilled = (work: Promise<never>) => work.catch((error: unknown) => { if (!(error instanceof TypeError)) throw error; });
      const clients = Array.from({ length: CLIENTS }, (_, i) => untilKilled(saves(i === 0 ? "shared" : `client-${i}`)));
      clients.push(untilKilled(saves("shared")), untilKilled(rehearses()));
      await ended;
      await Promise.all(clients);

      const store = new Store(folder, LIMITS);
      expect(store.isSound()).toBe(true);
      /** "id revision" -> what is there */ const kept = new Map<string, string | null>();
      for (const { id, revision } of store.scenarios.list()) {
        for (let number = 1; number <= revision; number += 1) kept.set(`${id} ${number}`, store.scenarios.revision(id, number)?.text ?? null);
      }
      // In one go, since it is all of them after each kill: told one by one, they took seconds of processor time towards the end.
      expect([...acknowledged].filter(([key, text]) => kept.get(key) !== text), `kill ${kill + 1}`).toEqual([]);
      // What was on its way may be there or not, but whole and in order.
      expect([...kept].filter(([, text]) => text === null || !attempted.has(text)), `kill ${kill + 1}`).toEqual([]);
      store.close();
    }
    expect(acknowledged.size).toBeGreaterThanOrEqual(KILLS);
  }, PATIENCE);
});
