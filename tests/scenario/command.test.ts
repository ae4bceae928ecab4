import { readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { hashOf } from "../../sim/scenario/hash.ts";
import { clampsideIn, type Surroundings } from "../cli/run.ts";
import { BUILDING_MS, buildHouse, type BuiltHouse } from "../server/built.ts";
import { newFolder } from "../temporary.ts";
import { checkScenario, leastDay, sound } from "./days.ts";

const folder = newFolder();
const inFolder = (name: string) => join(folder, name);

let house: BuiltHouse;
const clampside = (words: readonly string[], surroundings?: Surroundings) => clampsideIn(house, words, surroundings);

beforeAll(() => {
  house = buildHouse();
  writeFileSync(inFolder("least.json"), JSON.stringify(leastDay()));
  writeFileSync(inFolder("negative.yaml"), JSON.stringify({ ...leastDay(), fields: [{ area: "-3 ha", yield: "45 t/ha", distance: "2 km" }] }));
  writeFileSync(inFolder("broken.yaml"), "name: a\nfields: [}\n");
  writeFileSync(inFolder("proto.yaml"), `{"__proto__": {"x": 1}, ${JSON.stringify(leastDay()).slice(1)}`);
  writeFileSync(inFolder("empty.yaml"), "");
  writeFileSync(inFolder("noise.bin"), Buffer.from(Uint8Array.from({ length: 20_000 }, (_, i) => (i * 2_654_435_761) >>> 13)));
  writeFileSync(inFolder("large.bin"), Buffer.alloc(10_000_000, "y\u00e4\n"));
}, BUILDING_MS);

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  house?.remove();
});

describe("clampside check", () => {
  it("says that a sound scenario is sound, and which defaults apply with their marks", async () => {
    const { code, stdout: out, stderr: err } = await clampside(["check", inFolder("least.json")]);
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
    const document = JSON.parse(one.stdout);
    expect([one.code, one.stderr]).toEqual([0, ""]);
    expect(document.scenario).toEqual({ name: "Unnamed day", hash: hashOf(sound(checkScenario(leastDay()))) });
    expect(document.defaults).toContainEqual({ path: "packing.finish", value: "45 min", mark: "assumption of this project" });
    expect(other.stdout).toBe(one.stdout);
  });

  it("reads standard input when the file is -", async () => {
    const { code, stdout: out } = await clampside(["check", "-"], { input: JSON.stringify(leastDay()) });
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
    ["no file named", ["check"], /^The <file> is missing\.\nclampside --help says what there is\.\n$/u],
    ["a file too many", ["check", inFolder("least.json"), inFolder("least.json")], /^2 names are given where 1 would do\.\n/u],
    ["a command nobody knows", ["chek", "x"], /^There is no command "chek"; did you mean check\?\n/u],
    ["an option nobody knows", ["check", "--jsn", inFolder("least.json")], /^There is no option "--jsn"; did you mean --json\?\n/u],
    ["no command at all", [], /Usage: clampside/u],
  ])("%s ends with code 2, a sentence on standard error and nothing on standard output", async (_what, words, says) => {
    const before = readdirSync(folder);
    const { code, stdout: out, stderr: err } = await clampside(words as string[]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(says as RegExp);
    expect(err).not.toMatch(/\n {4}at /u);
    expect(readdirSync(folder)).toEqual(before);
  });

  it("ends quietly when nobody reads its output", async () => {
    const { code, stderr: err } = await clampside(["check", "--json", inFolder("least.json")], { closeOutput: true });
    expect([code, err]).toEqual([0, ""]);
  });

  it("says what there is, and its version, with code 0", async () => {
    const [help, version] = await Promise.all([clampside(["--help"]), clampside(["--version"])]);
    expect([help.code, help.stderr, version.code]).toEqual([0, "", 0]);
    expect(help.stdout).toMatch(/check .*is the scenario sound/u);
    expect(version.stdout).toMatch(/^\d+\.\d+\.\d+\n$/u);
  });
});
