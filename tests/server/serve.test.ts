import { spawn } from "node:child_process";
import type { ChildProcessWithoutNullStreams } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { serve as serveHere } from "../../server/cli/serve.ts";
import { LIMITS } from "../../server/limits.ts";
import { listen } from "../../server/listen.ts";
import { BUILDING_MS, buildHouse } from "./built.ts";
import type { BuiltHouse } from "./built.ts";
import { meadow } from "./meadow.ts";
import { post } from "./served.ts";

let house: BuiltHouse;
const running = new Set<ChildProcessWithoutNullStreams>();

beforeAll(() => {
  house = buildHouse();
  mkdirSync(join(house.folder, "dist", "page"));
  writeFileSync(join(house.folder, "dist", "page", "index.html"), "<!doctype html><title>Clampside</title>");
}, BUILDING_MS);
afterEach(() => running.forEach((child) => child.kill("SIGKILL")));
afterAll(() => house.remove());

/** `clampside serve` as built, in a process of its own. */
function serve(...words: string[]) {
  const child = spawn(process.execPath, [join(house.folder, "dist/server/cli/main.js"), "serve", ...words]);
  running.add(child);
  const said = { out: "", err: "" };
  child.stdout.setEncoding("utf8").on("data", (text: string) => { said.out += text; });
  child.stderr.setEncoding("utf8").on("data", (text: string) => { said.err += text; });
  const ended = new Promise<number | null>((resolve) => child.on("close", (code) => {
    running.delete(child);
    resolve(code);
  }));
  /** Resolves with the address once it is printed, rejects when the process ends before. */
  const url = new Promise<string>((resolve, reject) => {
    child.stdout.on("data", () => {
      const address = /^Clampside is at (\S+)$/m.exec(said.out)?.[1];
      if (address !== undefined) resolve(address);
    });
    child.on("close", () => reject(new Error(`ended: ${said.err}`)));
  });
  url.catch(() => {});
  return { child, said, ended, url };
}

describe("clampside serve", () => {
  it("prints its address and nothing else, answers there with page, health and rehearsals, and ends cleanly when told", async () => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) {
      const { child, said, ended, url } = serve("--port", "0");
      const address = await url;
      expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
      expect(await (await fetch(address)).text()).toContain("<title>Clampside</title>");
      expect((await fetch(`${address}/livez`)).status).toBe(200);
      expect((await post(address, JSON.stringify({ scenario: meadow, rehearsals: 2 }))).status).toBe(200);
      // Ready once each thread has a first rehearsal behind it; if that never comes, the test runs out of time.
      while ((await fetch(`${address}/readyz`)).status !== 200);
      child.kill(signal);
      expect(await ended).toBe(0);
      expect(said).toEqual({ out: `Clampside is at ${address}\n`, err: "" });
    }
  });

  it("takes a free port when the usual one is in use, and says so", async () => {
    const usual = await listen((_request, response) => response.end(), "127.0.0.1", 4717, true, LIMITS);
    const { child, said, ended, url } = serve();
    expect(await url).not.toBe("http://127.0.0.1:4717");
    child.kill("SIGTERM");
    expect(await ended).toBe(0);
    expect(said.err).toBe("Port 4717 is in use; taking a free one.\n");
    await usual.close();
  });

  it("does not take another port than the one it was told to take", async () => {
    const taken = await listen((_request, response) => response.end(), "127.0.0.1", 0, false, LIMITS);
    const { said, ended } = serve("--port", String(taken.port));
    expect(await ended).toBe(1);
    expect(said).toEqual({ out: "", err: `Port ${taken.port} is in use. Leave --port out, and a free one is taken.\n` });
    await taken.close();
  });

  it("calls a port that is none and a host that is not this machine wrong use", async () => {
    const told = vi.spyOn(process.stderr, "write").mockReturnValue(true);
    for (const options of [{ port: "many" }, { port: "70000" }, { port: "-1" }, { port: "" }, { host: "0.0.0.0" }, { host: "farm.example" }]) {
      expect(await serveHere(options), JSON.stringify(options)).toBe(2);
      expect(told.mock.lastCall?.[0]).toMatch(/^--(port|host) takes .*\n$/);
    }
    told.mockRestore();
  });
});
