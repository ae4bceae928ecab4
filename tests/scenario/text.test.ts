import { describe, expect, it } from "vitest";
import { LIMITS } from "../../sim/scenario/limits.ts";
import { readScenario, unsound } from "./days.ts";

const first = (text: string) => unsound(readScenario(text))[0]!;

describe("text that is no scenario", () => {
  it.each([
    ["nothing", "", /^The scenario is empty: a group of keys would do/u],
    ["only a remark", "# later\n", /^The scenario is empty/u],
    ["a word", "hello", /^The scenario is "hello": a group of keys would do/u],
    ["a list", "- a\n- b\n", /^The scenario is a list/u],
    ["control characters", "name: a\u0000b", /^This is no text: it holds control characters\.$/u],
    ["broken YAML", "fields: [a, b", /^This is no sound YAML: /u],
    ["a tab where YAML has none", "crop:\n\tkind: corn\n", /^This is no sound YAML: /u],
    ["a tab that the parser quotes", "packing:\n |    -\t {name: Blade}\n    - {name: Roller}\n", /^This is no sound YAML: [^\p{Cc}]+\.$/u],
    ["broken JSON", "{\"fields\": [}", /^This is no sound YAML: /u],
    ["two documents", "name: a\n---\nname: b\n", /^This is no sound YAML: /u],
    ["a tag of its own", "name: !run ls\n", /^This is no sound YAML: Unresolved tag: !run\.$/u],
    ["an alias to nothing", "name: *nobody\n", /^Nothing above is marked &nobody; write the value out\.$/u],
    ["a key that is a list", "? [a, b]\n: c\n", /^A key must be a plain word\.$/u],
    ["a key twice", "name: a\nname: b\n", /^"name" stands here twice; leave one of them out\.$/u],
    ["__proto__", "__proto__: {name: a}\n", /^There is no key "__proto__"\.$/u],
    ["constructor", "crop: {constructor: 1}\n", /^There is no key "constructor" in crop\.$/u],
  ])("%s is refused in a sentence", (_what, text, says) => {
    expect(first(text).detail).toMatch(says);
  });

  it("is told with the line and the column where it goes wrong", () => {
    expect(first("name: a\ncrop: {kind: corn}}\n")).toMatchObject({ line: 2, column: 19 });
    expect(first("name: a\ncrop:\n  kind: corn\n  kind: grass\n")).toMatchObject({ pointer: "/crop/kind", line: 4, column: 3 });
    expect(first("name: a\nowner: \u0007\n")).toMatchObject({ line: 2, column: 8 });
  });

  it("is bounded before the parser begins: by length, marks, lines, nesting and aliases", () => {
    // Each of these keeps a YAML parser busy for seconds to minutes, or to the end of its stack, when it is let in.
    const floods: readonly (readonly [string, RegExp])[] = [
      ["x".repeat(10_000_000), /10,000,000 characters; up to 1,000,000 would do/u],
      ["[".repeat(500_000), /more than 16 deep/u],
      ["{a: ".repeat(200_000), /more than 16 deep/u],
      ["- ".repeat(400_000), /more than 16 deep/u],
      ["? ".repeat(400_000), /more than 16 deep/u],
      [Array.from({ length: 1200 }, (_, i) => `${" ".repeat(i)}a:`).join("\n"), /more than 16 deep/u],
      ["\"".repeat(900_000), /more than 30,000 words, marks and lines/u],
      [",".repeat(900_000), /more than 30,000 words|no sound YAML/u],
      ["\n".repeat(900_000), /more than 30,000 words, marks and lines/u],
      [Array.from({ length: 80_000 }, (_, i) => `k${i}: 1`).join("\n"), /more than 30,000 words, marks and lines/u],
      [`a: &a 1\n${Array.from({ length: 5000 }, (_, i) => `k${i}: *a`).join("\n")}`, /more than 100 aliases/u],
      ["a: &a [*a]", /more than 16 deep/u],
      ["a: &a [x,x,x,x,x,x,x,x,x]\n" + [..."bcdefghij"].map((name, i) => `${name}: &${name} [${Array(9).fill(`*${"abcdefghij"[i]}`).join(",")}]`).join("\n"), /more than 20,000 values/u],
    ];
    for (const [text, says] of floods) expect(first(text).detail).toMatch(says);
  });

  it("merges nothing: << is a key like any other", () => {
    expect(unsound(readScenario("<<: {name: a}\n")).map(({ detail }) => detail)).toContainEqual(expect.stringMatching(/^There is no key "<<"; known here: /u));
  });

  it("may use an anchor where a person would", () => {
    const text = "name: &n Same\ncurrency: *n\n";
    expect(unsound(readScenario(text)).map(({ pointer }) => pointer)).not.toContain("/currency");
  });

  it("leaves room: the largest list of every kind of row stays within the marks", () => {
    const row = "{name: \"Long Strip\", area: 14 ha, yield: 45 t/ha, distance: 2.4 km, rowLength: 420 m, dryMatter: 34 %, storage: North bunker, owner: x}";
    const text = `fields:\n${`  - ${row}\n`.repeat(LIMITS.fields)}`;
    expect(unsound(readScenario(text))[0]!.detail).not.toMatch(/words, marks and lines/u);
  });
});
