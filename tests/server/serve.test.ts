import { spawn } from "node:child_process";
import type { ChildProcessWithoutNullStreams } from "node:child_process";
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Command } from "commander";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { addKeep } from "../../server/cli/keep.ts";
import { serve as serveHere } from "../../server/cli/serve.ts";
import { LIMITS } from "../../server/limits.ts";
import { addressesOf, inUrl } from "../../server/names.ts";
import { listen } from "../../server/listen.ts";
import { Store } from "../../server/store/store.ts";
import { clampside } from "../cli/run.ts";
import { BUILDING_MS, buildHouse } from "./built.ts";
import type { BuiltHouse } from "./built.ts";
import { meadow } from "./meadow.ts";
import { bare, post } from "./served.ts";
import { newFolder, removeFolders } from "../temporary.ts";

let house: BuiltHouse;
const running = new Set<ChildProcessWithoutNullStreams>();

beforeAll(() => {
  house = buildHouse();
  mkdirSync(join(house.folder, "dist", "page"));
  writeFileSync(join(house.folder, "dist", "page", "index.html"), "<!doctype html><title>Clampside</title>");
}, BUILDING_MS);
afterEach(() => running.forEach((child) => child.kill("SIGKILL")));
afterAll(() => {
  house.remove();
  removeFolders();
});

/** `clampside serve` as built, in a process of its own; where no `--data` is given, the user's data home is a folder made for the purpose. */
function serve(...words: string[]) {
  const home = newFolder();
  const env = { ...process.env, HOME: home, XDG_DATA_HOME: home, LOCALAPPDATA: home };
  const child = spawn(process.execPath, [join(house.folder, "dist/server/cli/main.js"), "serve", ...words], { env });
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
  return { child, said, ended, url, home };
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

  it("keeps scenarios and rehearsals in its data folder, for the next time it starts", async () => {
    const folder = newFolder();
    const first = serve("--port", "0", "--data", folder);
    const put = await fetch(`${await first.url}/api/v1/scenarios/mine`, { method: "PUT", body: JSON.stringify(meadow), headers: { "Content-Type": "application/json" } });
    expect(put.status).toBe(201);
    const asked = await post(await first.url, JSON.stringify({ scenario: meadow, rehearsals: 2 }));
    const text = await asked.text();
    first.child.kill("SIGTERM");
    expect(await first.ended).toBe(0);
    expect(readdirSync(folder)).toEqual(["clampside.sqlite"]);
    expect(readdirSync(first.home)).toEqual([]);

    const second = serve("--port", "0", "--data", folder);
    expect(await (await fetch(`${await second.url}/api/v1/scenarios/mine`)).json()).toEqual(meadow);
    const again = await fetch(`${await second.url}${asked.headers.get("Location")}`);
    expect([await again.text(), again.headers.get("ETag")]).toEqual([text, asked.headers.get("ETag")]);
    const log = await fetch(`${await second.url}${asked.headers.get("Location")}/log`);
    expect(log.headers.get("Content-Type")).toBe("application/x-ndjson; charset=utf-8");

    const third = serve("--port", "0", "--data", folder);
    expect(await third.ended).toBe(1);
    expect(third.said).toEqual({ out: "", err: `Another Clampside is using ${folder}. Go on with that one, end it first, or choose another folder with --data.\n` });
    second.child.kill("SIGTERM");
    expect(await second.ended).toBe(0);
  });

  it("carries a study out on threads, and ends when told though another goes on and is listened to", async () => {
    const { child, ended, url, said } = serve("--port", "0", "--data", newFolder());
    const ask = async (body: object) => {
      const answer = await fetch(`${await url}/api/v1/studies`, { method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json" } });
      return `${await url}${answer.headers.get("Location")}`;
    };
    const short = await ask({ kind: "compare", scenarios: [meadow, { ...meadow, name: "B" }], rehearsals: 3 });
    expect(await (await fetch(`${short}/events`)).text()).toContain("event: done");
    expect(await (await fetch(short)).json()).toMatchObject({ state: "done", result: { rehearsals: 3 } });
    const long = await ask({ kind: "compare", scenarios: [meadow, { ...meadow, name: "B" }], rehearsals: 10_000 });
    const heard = fetch(`${long}/events`).then((answer) => answer.text());
    await fetch(`${await url}/livez`);
    child.kill("SIGTERM");
    expect(await heard).toContain("event: cancelled");
    expect(await ended).toBe(0);
    expect(said.err).toBe("");
  });

  it("finds a data folder of its own when it is told of none", async () => {
    const { child, ended, url, home } = serve("--port", "0");
    await url;
    child.kill("SIGTERM");
    expect(await ended).toBe(0);
    const files = readdirSync(home, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".sqlite"));
    expect(files.length).toBe(1);
  });

  it("asks for a token when it listens for other machines, made and shown once or given, and answers under the machine's own names", async () => {
    const made = serve("--port", "0", "--host", "0.0.0.0", "--data", newFolder());
    const port = new URL(await made.url).port;
    while (!made.said.out.includes("token=")) await new Promise((resolve) => made.child.stdout.once("data", resolve));
    const token = /\/enter\?token=([\w-]{22})\n$/.exec(made.said.out)?.[1] ?? "";
    const here = `http://127.0.0.1:${port}`;
    expect((await fetch(here)).status).toBe(401);
    expect((await fetch(`${here}/api/v1/scenarios`)).status).toBe(401);
    expect((await fetch(`${here}/api/v1/scenarios`, { headers: { Authorization: `Bearer ${token}` } })).status).toBe(200);
    for (const address of addressesOf("0.0.0.0")) {
      expect((await bare(Number(port), "/livez", { Host: `${inUrl(address)}:${port}` })).status, address).toBe(200);
    }
    expect((await bare(Number(port), "/livez", { Host: "farm.example" })).status).toBe(421);
    made.child.kill("SIGTERM");
    expect(await made.ended).toBe(0);

    const given = serve("--port", "0", "--host", "0.0.0.0", "--data", newFolder(), "--token", "a-token-of-my-own");
    const url = new URL(await given.url);
    expect((await fetch(`http://127.0.0.1:${url.port}/api/v1/scenarios`, { headers: { Authorization: "Bearer a-token-of-my-own" } })).status).toBe(200);
    given.child.kill("SIGTERM");
    expect(await given.ended).toBe(0);
    expect(given.said.out).not.toContain("a-token-of-my-own");
  });

  it("says that an address is not this machine's", async () => {
    const { said, ended } = serve("--port", "0", "--host", "192.0.2.1");
    expect(await ended).toBe(1);
    expect(said.err).toContain("192.0.2.1 is no address of this machine");
  });

  it("does not take another port than the one it was told to take", async () => {
    const taken = await listen((_request, response) => response.end(), "127.0.0.1", 0, false, LIMITS);
    const { said, ended } = serve("--port", String(taken.port));
    expect(await ended).toBe(1);
    expect(said).toEqual({ out: "", err: `Port ${taken.port} is in use. Leave --port out, and a free one is taken.\n` });
    await taken.close();
  });

  it("calls a port, host, folder or token that cannot be one wrong use", async () => {
    const told = vi.spyOn(process.stderr, "write").mockReturnValue(true);
    for (const options of [{ port: "many" }, { port: "70000" }, { port: "-1" }, { port: "" }, { host: "a b" }, { host: "" }, { data: "" }, { token: "too short" }, { token: "with a blank in it, alas" }]) {
      expect(await serveHere(options), JSON.stringify(options)).toBe(2);
      expect(told.mock.lastCall?.[0]).toMatch(/^--(port|host|data|token) takes .*\n$/);
    }
    told.mockRestore();
  });
});

describe("clampside keep and restore", () => {
  it("carry a folder elsewhere as one file, whole or not at all, and change nothing that is there", async () => {
    const [from, to, files] = [newFolder(), newFolder(), newFolder()];
    const file = join(files, "kept.jsonl");
    const first = new Store(from, LIMITS);
    const save = (store: Store, name: string) => store.scenarios.save("mine", { form: "json", text: JSON.stringify({ ...meadow, name }), name, hash: "0".repeat(32) }, 5);
    save(first, "theirs");
    // While a server has the folder, the words say so.
    const used = await clampside(house, "keep", file, "--data", from);
    expect([used.code, used.stdout, readdirSync(files)]).toEqual([1, "", []]);
    expect(used.stderr).toContain(`Another Clampside is using ${from}.`);
    first.close();
    expect(await clampside(house, "keep", file, "--data", from)).toEqual({ code: 0, stdout: "", stderr: "" });
    expect(readdirSync(files)).toEqual(["kept.jsonl"]);

    const second = new Store(to, LIMITS);
    save(second, "ours");
    second.close();
    expect(await clampside(house, "restore", file, "--data", to)).toEqual({
      code: 0, stdout: "Scenarios: 1 new, 0 gone on with, 0 here already. Rehearsals and studies: 0 new.\nAnother mine is kept here; theirs is mine-imported.\n", stderr: "",
    });
    const again = new Store(to, LIMITS);
    expect(again.scenarios.list().map(({ id, name }) => [id, name])).toEqual([["mine", "ours"], ["mine-imported", "theirs"]]);
    again.close();
  });

  it("say what cannot be used, and make nothing of it", async () => {
    const files = newFolder();
    const cut = join(files, "cut.jsonl");
    writeFileSync(cut, "{\"archive\":\"clampside\",\"version\":1}\n");
    const cases: [string[], RegExp][] = [
      [["restore", cut, "--data", join(files, "new")], /cut\.jsonl: The archive breaks off: .* Nothing of it was taken\.$/],
      [["restore", join(files, "none"), "--data", join(files, "new")], /^There is no file .*none\.$/], [["restore", files, "--data", join(files, "new")], /is a folder, not a file/],
      [["keep", join(files, "out"), "--data", join(files, "new")], /^Nothing is kept in .*new\.$/],
    ];
    for (const [words, said] of cases) {
      const program = new Command();
      addKeep(program);
      await expect(program.parseAsync(words, { from: "user" })).rejects.toMatchObject({ exitCode: 2, message: expect.stringMatching(said) });
    }
    expect(readdirSync(files)).toEqual(["cut.jsonl"]);
  });
});
