/** The README's commands, run as they are written on a copy of what is checked in, and the package as somebody installs it. */
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { addressOf } from "../server/addressof.ts";
import { newFolder } from "../temporary.ts";

const ROOT = resolve(import.meta.dirname, "../..");
/** ms; a build takes ten seconds on a quiet machine. */
const PATIENCE = 300_000;

let folder: string;
let house: string;

/** What is checked in, in a folder of its own; the packages are those that are installed here. */
beforeAll(() => {
  folder = newFolder();
  house = join(folder, "house");
  const files = execFileSync("git", ["ls-files", "-z", "--", ":!tests"], { cwd: ROOT, encoding: "utf8" }).split("\0").filter(Boolean);
  for (const file of files) {
    mkdirSync(dirname(join(house, file)), { recursive: true });
    cpSync(join(ROOT, file), join(house, file));
  }
  symlinkSync(join(ROOT, "node_modules"), join(house, "node_modules"));
}, PATIENCE);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const readme = () => readFileSync(join(house, "README.md"), "utf8");

describe("a copy of what is checked in", () => {
  it("starts by the command that the README gives, and its page answers", async () => {
    const [, command] = /^ {4}npm ci && (npm start)$/m.exec(readme())!;
    const [program, ...words] = command!.split(" ");
    const child = spawn(program!, [...words, "--", "--port", "0", "--data", join(folder, "data")], { cwd: house, stdio: ["ignore", "pipe", "inherit"], detached: true });
    try {
      const url = await addressOf(child);
      expect((await fetch(`${url}/livez`)).status).toBe(200);
      const page = await (await fetch(url)).text();
      const script = /src="(\/assets\/[^"]+\.js)"/.exec(page)![1]!;
      expect((await fetch(url + script)).status).toBe(200);
    } finally {
      // npm does not hand a signal on to what it started; the whole group is ended.
      if (child.exitCode === null) {
        process.kill(-child.pid!, "SIGTERM");
        await new Promise((done) => child.once("exit", done));
      }
    }
  }, PATIENCE);

  it("names the same test command in the README and in what continuous integration runs", () => {
    expect(readme()).toMatch(/^ {4}npm ci && npm test$/m);
    expect(readFileSync(join(house, ".ci/run"), "utf8").trimEnd().split("\n").at(-1)).toBe("npm ci && npm test");
  });
});

describe("the package", () => {
  it("holds what is needed and no more; installed by the words of the README, its command and server work from another folder", async () => {
    const packed = spawnSync("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", folder], { cwd: house, encoding: "utf8" });
    const [{ filename, files, size }] = JSON.parse(packed.stdout) as [{ filename: string; files: { path: string }[]; size: number }];
    const tops = new Set(files.map(({ path }) => path.split("/")[0]!));
    expect([...tops].sort()).toEqual(["CHANGELOG.md", "LICENSE", "README.md", "dist", "package.json", "scenarios"]);
    for (const { path } of files) expect(path).toMatch(/^(CHANGELOG\.md|LICENSE|README\.md|package\.json|dist\/(server|page)\/.*|scenarios\/.*\.(yaml|json|csv|geojson|gpx))$/);
    expect(files.filter(({ path }) => path.endsWith(".ts") || path.endsWith(".map"))).toEqual([]);
    // The packages that it uses are in it, all but those with a part to load at run time.
    expect(size).toBeLessThan(1_300_000);

    const [, words] = /`npm (install -g (\S+))`/.exec(readme())!;
    expect(words).toBe(`install -g ./${filename}`);
    const prefix = join(folder, "prefix");
    // Scripts left out, since the only one compiles a package for a minute; it is there when the server is wanted, from where `npm ci` has compiled it.
    execFileSync("npm", [...words!.split(" "), "--prefix", prefix, "--ignore-scripts", "--prefer-offline", "--no-audit", "--loglevel", "error"], { cwd: folder });
    const command = join(prefix, "bin/clampside");
    const installed = join(prefix, "lib/node_modules/clampside");
    const { version } = JSON.parse(readFileSync(join(installed, "package.json"), "utf8")) as { version: string };
    const elsewhere = mkdtempSync(join(folder, "elsewhere-"));
    const run = (...words: string[]) => spawnSync(command, words, { cwd: elsewhere, encoding: "utf8" });
    expect(run("--version")).toMatchObject({ status: 0, stdout: `${version}\n`, stderr: "" });
    const day = run("rehearse", join(installed, "scenarios/contractor-corn-day.yaml"));
    expect(day.stderr).toBe("");
    expect(day.stdout).toContain("Packing falls behind at 07:30");

    const notices = readFileSync(join(installed, "dist/server/notices.txt"), "utf8");
    for (const name of ["express", "seedrandom", "yaml", "zod"]) expect(notices).toMatch(new RegExp(`^${name} \\d`, "m"));
    const withoutDatabase = run("serve", "--port", "0", "--data", join(elsewhere, "data"));
    expect(withoutDatabase).toMatchObject({ status: 1, stdout: "" });
    expect(withoutDatabase.stderr).toMatch(/^The database that keeps plans .*npm rebuild better-sqlite3.*\n$/u);
    const compiled = join(installed, "node_modules/better-sqlite3");
    rmSync(compiled, { recursive: true });
    symlinkSync(join(ROOT, "node_modules/better-sqlite3"), compiled);
    const child = spawn(command, ["serve", "--port", "0", "--data", join(elsewhere, "data")], { cwd: elsewhere, stdio: ["ignore", "pipe", "inherit"] });
    try {
      const url = await addressOf(child);
      const rehearsal = await fetch(`${url}/api/v1/rehearsals`, { method: "POST", headers: { "Content-Type": "application/yaml" }, body: readFileSync(join(installed, "scenarios/contractor-corn-day.yaml")) });
      expect(rehearsal.status).toBe(200);
      expect((await fetch(url)).status).toBe(200);
    } finally {
      child.kill("SIGTERM");
      await new Promise((done) => child.once("exit", done));
    }
  }, PATIENCE);
});
