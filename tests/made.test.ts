/** What is made once a run, with makers that are processes of their own, as vitest's are. */
import { spawn, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { afterEach, beforeEach, describe, expect, it } from "vitest";

let run: string;
const makers: ChildProcess[] = [];
beforeEach(() => {
  run = mkdtempSync(join(tmpdir(), "clampside-made-"));
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
    env: { ...process.env, CLAMPSIDE_TESTS_MADE: run }, stdio: ["ignore", "pipe", "pipe"],
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
