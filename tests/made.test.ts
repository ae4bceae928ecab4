/** What is made once a run, with makers that are processes of their own, as vitest's are; and the run's own folder. */
import { spawn, spawnSync, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdirSync, readdirSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { newFolder, RUN_FOLDER } from "./temporary.ts";

let run: string;
const makers: ChildProcess[] = [];
beforeEach(() => {
  run = newFolder();
});
afterEach(() => {
  for (const maker of makers.splice(0)) maker.kill("SIGKILL");
  rmSync(run, { recursive: true, force: true });
});

/** A process that wants the thing and makes it by `statement`, which may use `folder`; it waits `patience` ms for another who is at it. */
function maker(statement: string, patience?: number) {
  const code = `
    import { mkdirSync, writeFileSync, writeSync } from "node:fs";
    import { madeOnce } from ${JSON.stringify(new URL("made.ts", import.meta.url).href)};
    const say = (line) => writeSync(1, line + "\\n");
    say("wants");
    say("has " + madeOnce("thing", (folder) => { mkdirSync(folder); ${statement} }, ${patience}));`;
  const child = spawn(process.execPath, ["--import", "tsx", "--input-type=module", "--eval", code], {
    env: { ...process.env, [RUN_FOLDER]: run }, stdio: ["ignore", "pipe", "pipe"],
  });
  makers.push(child);
  let stderr = "";
  child.stderr.setEncoding("utf8").on("data", (piece: string) => { stderr += piece; });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  return {
    heard: async () => (await lines.next()).value,
    ended: once(child, "close").then(([code]) => ({ code: code as number | null, stderr })),
    kill: () => child.kill("SIGKILL"),
  };
}

const makes = (by: string) => `writeFileSync(folder + "/${by}", "made");`;
const FOR_EVER = `say("makes"); for (;;) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);`;

describe("what is made once a run", () => {
  it("is made by one who waits when its maker dies, and holds nothing of what the dead one left", async () => {
    const first = maker(makes("first") + FOR_EVER);
    expect([await first.heard(), await first.heard()]).toEqual(["wants", "makes"]);
    const second = maker(makes("second"));
    expect(await second.heard()).toBe("wants");
    first.kill();
    expect(await second.heard()).toBe(`has ${join(run, "thing")}`);
    expect(readdirSync(join(run, "thing"))).toEqual(["second"]);
    expect(await second.ended).toEqual({ code: 0, stderr: "" });
  });

  it("is made by the next when its maker fails, and by nobody once it is there", async () => {
    const failing = maker("throw new Error('no room');");
    expect(await failing.ended).toMatchObject({ code: 1, stderr: expect.stringContaining("no room") });
    for (const by of ["second", "third"]) expect((await maker(makes(by)).ended).code).toBe(0);
    expect(readdirSync(join(run, "thing"))).toEqual(["second"]);
  });

  it("is not waited for without end: whoever gives up says what for", async () => {
    const first = maker(FOR_EVER);
    expect([await first.heard(), await first.heard()]).toEqual(["wants", "makes"]);
    expect(await maker(makes("second"), 1).ended).toMatchObject({ code: 1, stderr: expect.stringContaining("Another test file has been making the thing for too long") });
  });
});

describe("a run", () => {
  it("has a folder for all that its tests make, which goes even when the run is stopped before its end", () => {
    const url = (file: string) => JSON.stringify(new URL(file, import.meta.url).href);
    const code = `
      import { existsSync, writeSync } from "node:fs";
      import begin from ${url("made.ts")};
      import { newFolder, RUN_FOLDER } from ${url("temporary.ts")};
      begin();
      const inner = newFolder();
      writeSync(1, JSON.stringify({ folder: process.env[RUN_FOLDER], inner, there: existsSync(inner) }));
      // As vitest does when it is told to stop: at once, without the end that it was given.
      process.exit(130);`;
    const { status, stdout } = spawnSync(process.execPath, ["--import", "tsx", "--input-type=module", "--eval", code], { encoding: "utf8", env: { ...process.env, [RUN_FOLDER]: run } });
    const { folder, inner, there } = JSON.parse(stdout) as { folder: string; inner: string; there: boolean };
    expect({ status, there, within: dirname(inner) }).toEqual({ status: 130, there: true, within: folder });
    expect(existsSync(folder)).toBe(false);
    expect(existsSync(run)).toBe(true);
  });

  it("ends with all processes that its test files started when the run is stopped", async () => {
    const folder = join(run, "stopped");
    mkdirSync(folder);
    // Both hold on to the pipe that is listened to, which closes when the last of them has ended.
    const code = `
      import { spawn } from "node:child_process";
      import ${JSON.stringify(new URL("setup.ts", import.meta.url).href)};
      spawn(process.execPath, ["--eval", "console.log('at work'); setInterval(() => {}, 1000)"], { stdio: "inherit" });`;
    const file = spawn(process.execPath, ["--import", "tsx", "--input-type=module", "--eval", code], { env: { ...process.env, [RUN_FOLDER]: folder }, stdio: ["ignore", "pipe", "inherit", "ipc"] });
    makers.push(file);
    const ended = once(file.stdout!, "close");
    file.stdout!.resume();
    await once(file.stdout!, "data");
    file.disconnect();
    await ended;
    expect(existsSync(folder)).toBe(false);
  });
});
