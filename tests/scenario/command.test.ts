import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { hashOf } from "../../sim/scenario/hash.ts";
import { checkScenario, leastDay, sound } from "./days.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "clampside-"));
const inFolder = (name: string) => join(folder, name);

interface Ended { readonly code: number | null; readonly out: string; readonly err: string }

/** Runs the command from source, as a person would, and waits for its end. */
function clampside(words: readonly string[], { input, env = {}, closeOutput = false }: { input?: string; env?: Record<string, string>; closeOutput?: boolean } = {}): Promise<Ended> {
  const child = spawn(process.execPath, ["--import", "tsx", "server/cli/main.ts", ...words], { cwd: root, env: { ...process.env, FORCE_COLOR: undefined, ...env } });
  let [out, err] = ["", ""];
  child.stdout.on("data", (piece: Buffer) => { out += piece.toString(); });
  child.stderr.on("data", (piece: Buffer) => { err += piece.toString(); });
  if (closeOutput) child.stdout.destroy();
  child.stdin.on("error", () => undefined).end(input ?? "");
  return new Promise((resolve) => child.on("close", (code) => resolve({ code, out, err })));
}

beforeAll(() => {
  writeFileSync(inFolder("least.json"), JSON.stringify(leastDay()));
  writeFileSync(inFolder("negative.yaml"), JSON.stringify({ ...leastDay(), fields: [{ area: "-3 ha", yield: "45 t/ha", distance: "2 km" }] }));
  writeFileSync(inFolder("broken.yaml"), "name: a\nfields: [}\n");
  writeFileSync(inFolder("proto.yaml"), `{"__proto__": {"x": 1}, ${JSON.stringify(leastDay()).slice(1)}`);
  writeFileSync(inFolder("empty.yaml"), "");
  writeFileSync(inFolder("noise.bin"), Buffer.from(Uint8Array.from({ length: 20_000 }, (_, i) => (i * 2_654_435_761) >>> 13)));
  writeFileSync(inFolder("large.bin"), Buffer.alloc(10_000_000, "y\u00e4\n"));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("clampside check", () => {
  it("says that a sound scenario is sound, and which defaults apply with their marks", async () => {
    const { code, out, err } = await clampside(["check", inFolder("least.json")]);
    expect([code, err]).toEqual([0, ""]);
    expect(out).toMatch(/The scenario is sound\./u);
    expect(out).toMatch(/1 field, 14\.0 ha: 630 t fresh/u);
    expect(out).toMatch(/assumption of this project\n( {2}.*\n)*? {2}choppers\[0\]\.changeover +20 s\n/u);
    expect(out).toMatch(/invented for the demo\n( {2}.*\n)*? {2}labour +25 per h\n/u);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    expect(out).not.toContain("\u001b");
  });

  it("prints one JSON document and nothing else when asked to, the same bytes each time", async () => {
    const [one, other] = await Promise.all([clampside(["check", "--json", inFolder("least.json")]), clampside(["check", inFolder("least.json"), "--json"])]);
    const document = JSON.parse(one.out);
    expect([one.code, one.err]).toEqual([0, ""]);
    expect(document.scenario).toEqual({ name: "Unnamed day", hash: hashOf(sound(checkScenario(leastDay()))) });
    expect(document.defaults).toContainEqual({ path: "packing.finish", value: "45 min", mark: "assumption of this project" });
    expect(other.out).toBe(one.out);
  });

  it("reads standard input when the file is -", async () => {
    const { code, out } = await clampside(["check", "-"], { input: JSON.stringify(leastDay()) });
    expect([code, out.includes("The scenario is sound.")]).toEqual([0, true]);
  });

  it.each([
    ["a file that is not there", ["check", inFolder("nobody.yaml")], /^There is no file .*nobody\.yaml\.\n$/u],
    ["a path through a file", ["check", inFolder("least.json/x.yaml")], /^There is no file .*: a part of the path is not a folder\.\n$/u],
    ["a folder", ["check", folder], /is a folder; a file would do\.\n$/u],
    ["binary noise", ["check", inFolder("noise.bin")], /is not a text file in UTF-8\.\n$/u],
    ["ten megabytes", ["check", inFolder("large.bin")], /is too large; up to 1,000,000 bytes would do\.\n$/u],
    ["an empty file", ["check", inFolder("empty.yaml")], /empty\.yaml:1:1: The scenario is empty: /u],
    ["broken YAML", ["check", inFolder("broken.yaml")], /broken\.yaml:2:10: This is no sound YAML: /u],
    ["a negative area", ["check", inFolder("negative.yaml")], /negative\.yaml:1:\d+: fields\[0\]\.area is "-3 ha": over 0 ha and up to 5000 ha would do\.\n$/u],
    ["a __proto__", ["check", inFolder("proto.yaml")], /There is no key "__proto__"\.\n$/u],
    ["an unsound scenario asked for as JSON", ["check", "--json", inFolder("negative.yaml")], /-3 ha/u],
    ["no file named", ["check"], /missing required argument/u],
    ["a file too many", ["check", inFolder("least.json"), inFolder("least.json")], /too many arguments/u],
    ["a command nobody knows", ["chek", "x"], /unknown command 'chek'/u],
    ["an option nobody knows", ["check", "--jsn", inFolder("least.json")], /unknown option '--jsn'/u],
    ["no command at all", [], /Usage: clampside/u],
  ])("%s ends with code 2, a sentence on standard error and nothing on standard output", async (_what, words, says) => {
    const before = readdirSync(folder);
    const { code, out, err } = await clampside(words as string[]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(says as RegExp);
    expect(err).not.toMatch(/\n {4}at /u);
    expect(readdirSync(folder)).toEqual(before);
  });

  it("ends quietly when nobody reads its output", async () => {
    const { code, err } = await clampside(["check", "--json", inFolder("least.json")], { closeOutput: true });
    expect([code, err]).toEqual([0, ""]);
  });

  it("says what there is, and its version, with code 0", async () => {
    const [help, version] = await Promise.all([clampside(["--help"]), clampside(["--version"])]);
    expect([help.code, help.err, version.code]).toEqual([0, "", 0]);
    expect(help.out).toMatch(/check .*is the scenario sound/u);
    expect(version.out).toMatch(/^\d+\.\d+\.\d+\n$/u);
  });
});
