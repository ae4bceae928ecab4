import { createHash } from "node:crypto";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { LIMITS } from "../../../server/limits.ts";
import type { Limits } from "../../../server/limits.ts";
import { archiveOf, linesOf, NoArchive } from "../../../server/store/archive.ts";
import { lookThrough, takeArchive } from "../../../server/store/restore.ts";
import type { Taken } from "../../../server/store/restore.ts";
import { Store } from "../../../server/store/store.ts";
import { newFolder, removeFolders } from "../../temporary.ts";

afterAll(removeFolders);

const empty = (bounds: Partial<Limits> = {}) => new Store(null, { ...LIMITS, ...bounds });
const written = (text: string) => ({ form: "json" as const, text: JSON.stringify({ text }), name: text, hash: "0".repeat(32) });
const answer = (id: string, bytes = 10) => ({ kind: "study" as const, id, body: deflateSync(JSON.stringify({ id, result: "x".repeat(bytes) }), { level: 0 }), log: null, question: null });
const nameOf = (n: number) => String(n).padStart(22, "a");
const archive = (store: Store) => [...archiveOf(store, new Date(0))].join("");
const linesIn = (text: string) => text.replace(/\n$/, "").split("\n");

async function take(store: Store, text: string, isReserved = (_id: string) => false): Promise<Taken> {
  return takeArchive(store, linesIn(text), await lookThrough(linesIn(text)), isReserved);
}
/** Everything that is kept, to hold against what was. */
const contents = (store: Store) => ({
  scenarios: Object.fromEntries(store.database.prepare<[], string>("SELECT id FROM scenario ORDER BY id").pluck().all().map((id) => [id, store.scenarios.history(id)])),
  answers: store.answers.keys().map(({ kind, id }) => store.answers.packed(kind, id)),
});

/** What happens to a folder: a save under one of few names, or one of them taken away. */
const happenings = fc.array(fc.record({ id: fc.constantFrom("a", "b", "a-imported"), text: fc.constantFrom("x", "y", null) }), { maxLength: 12 });
function happen(store: Store, list: readonly { id: string; text: string | null }[]): void {
  for (const { id, text } of list) {
    if (text !== null) store.scenarios.save(id, written(text), 7);
    else if (store.scenarios.newest(id)?.text) store.scenarios.takeAway(id, 8);
  }
}

describe("an archive", () => {
  it("makes an empty folder what the first one was, and is the same again when that one is asked", async () => {
    await fc.assert(fc.asyncProperty(happenings, async (list) => {
      const [from, to] = [empty(), empty()];
      happen(from, list);
      from.answers.put([answer(nameOf(1)), { ...answer(nameOf(2)), kind: "rehearsal", question: Buffer.from("asked") }]);
      const text = archive(from);
      const { continued, same, renamed, answers } = await take(to, text);
      expect([continued, same, renamed, answers]).toEqual([0, 0, [], 2]);
      expect(contents(to)).toEqual(contents(from));
      expect(archive(to)).toBe(text);
      expect(to.isSound()).toBe(true);
    }));
  });

  it("taken on beside anything leaves every revision where it was, brings every history whole under its name or a new one, and brings nothing twice", async () => {
    await fc.assert(fc.asyncProperty(happenings, happenings, happenings, async (shared, theirs, ours) => {
      const [from, to] = [empty(), empty()];
      for (const store of [from, to]) happen(store, shared);
      happen(from, theirs);
      happen(to, ours);
      const before = contents(to).scenarios;
      const taken = await take(to, archive(from));
      const after = contents(to).scenarios;
      for (const [id, history] of Object.entries(before)) expect(after[id]!.slice(0, history.length)).toEqual(history);
      for (const [id, history] of Object.entries(contents(from).scenarios)) {
        const texts = history.map(({ text }) => text);
        const places = Object.entries(after).filter(([name, there]) => name.startsWith(id) && texts.every((text, i) => there[i]?.text === text));
        expect(places.length).toBeGreaterThan(0);
      }
      expect(Object.values(after).flat().length - Object.values(before).flat().length === 0).toBe(taken.added + taken.continued + taken.renamed.length === 0);
      const again = await take(to, archive(from));
      expect(again).toEqual({ added: 0, continued: 0, same: Object.keys(contents(from).scenarios).length, renamed: [], answers: 0 });
      expect(contents(to).scenarios).toEqual(after);
    }));
  });

  it("goes on with a history, keeps a longer one, and puts another one under a name that nothing is kept under", async () => {
    const [from, to] = [empty(), empty()];
    happen(from, [{ id: "longer", text: "x" }, { id: "longer", text: "y" }, { id: "shorter", text: "x" }, { id: "other", text: "x" }, { id: "example", text: "x" }, { id: "gone", text: "x" }, { id: "gone", text: null }]);
    happen(to, [{ id: "longer", text: "x" }, { id: "shorter", text: "x" }, { id: "shorter", text: "y" }, { id: "other", text: "y" }]);
    const taken = await take(to, archive(from), (id) => id === "example");
    expect(taken).toEqual({ added: 1, continued: 1, same: 1, renamed: [{ from: "example", to: "example-imported" }, { from: "other", to: "other-imported" }], answers: 0 });
    expect(to.scenarios.newest("longer")).toMatchObject({ revision: 2, text: written("y").text });
    expect(to.scenarios.newest("shorter")).toMatchObject({ revision: 2, text: written("y").text });
    expect(to.scenarios.newest("gone")).toMatchObject({ revision: 2, text: null });
    const long = "long-name-".repeat(6).slice(0, 60).replace(/-$/, "x");
    const far = empty();
    far.scenarios.save(long, written("x"), 1);
    to.scenarios.save(long, written("y"), 1);
    const [name] = (await take(to, archive(far))).renamed;
    expect(name?.to).toMatch(/^long-name-[a-z-]+[a-z]-imported$/);
    expect(name!.to.length).toBeLessThanOrEqual(60);
  });

  it("that is cut anywhere, or altered anywhere, brings nothing and says why", async () => {
    const from = empty();
    happen(from, [{ id: "a", text: "x" }, { id: "a", text: "y" }, { id: "b", text: "x" }]);
    from.answers.put([answer(nameOf(1))]);
    const text = archive(from);
    const to = empty();
    const refused = async (changed: string) => {
      await expect(take(to, changed)).rejects.toThrow(NoArchive);
      expect(contents(to)).toEqual({ scenarios: {}, answers: [] });
    };
    await fc.assert(fc.asyncProperty(fc.nat(text.length - 2), (length) => refused(text.slice(0, length))));
    await fc.assert(fc.asyncProperty(fc.nat(text.length - 1), fc.constantFrom("!", "0", "\"", "}", "\n", "é"), async (at, letter) => {
      fc.pre(text[at] !== letter);
      await refused(text.slice(0, at) + letter + text.slice(at + 1));
    }));
    await refused(linesIn(text).filter((_, i) => i !== 2).join("\n"));
    await refused(text + text);
    for (const nonsense of ["", "{}", "null", "a: yaml", "[]\n[]"]) await refused(nonsense);
  });

  it("whose last line fits what was put in it by hand brings nothing that could not be given out again", async () => {
    const head = linesIn(archive(empty()))[0]!;
    const sealed = (...lines: object[]) => {
      const all = [head, ...lines.map((line) => JSON.stringify(line))].map((line) => `${line}\n`).join("");
      return all + JSON.stringify({ end: { lines: lines.length + 1, sha256: createHash("sha256").update(all).digest("hex") } });
    };
    const sound = { id: "a", revision: 1, savedAt: 5, form: "json", name: "A", hash: "0".repeat(32), text: "{}" };
    const packed = (text: string) => deflateSync(text).toString("base64");
    const study = { kind: "study", id: nameOf(1), body: answer(nameOf(1)).body.toString("base64"), log: null };
    expect(await take(empty(), sealed({ revision: sound }, { answer: study }))).toMatchObject({ added: 1, answers: 1 });
    const revisions = [
      { id: "../a" }, { id: "A" }, { id: "a".repeat(61) }, { id: 3 }, { revision: 2 }, { revision: 0 }, { revision: "1" }, { savedAt: 1e300 }, { savedAt: null }, { form: "xml" }, { name: 3 }, { hash: "x" },
      { text: "{" }, { text: 5 }, { text: "[".repeat(40) + "]".repeat(40) }, { form: "yaml", text: "a: [" },
    ];
    for (const change of revisions) await expect(take(empty(), sealed({ revision: { ...sound, ...change } })), JSON.stringify(change).slice(0, 60)).rejects.toThrow(NoArchive);
    const answers = [{ kind: "other" }, { id: "x" }, { id: nameOf(2) }, { body: "" }, { body: "eJ" }, { log: "eJ" }, { kind: "rehearsal" }, { kind: "rehearsal", log: "eJ" }, { question: "eJ" }, { kind: "rehearsal", question: 5 }, { kind: "rehearsal", log: packed("a"), question: packed("b") }, { body: packed("no JSON") }];
    const others = [{ kind: "rehearsal", log: packed("told") }, { kind: "rehearsal", log: null, question: Buffer.from("asked").toString("base64") }];
    for (const change of others) expect(await take(empty(), sealed({ answer: { ...study, ...change } })), JSON.stringify(change)).toMatchObject({ answers: 1 });
    for (const change of answers) await expect(take(empty(), sealed({ answer: { ...study, ...change } })), JSON.stringify(change)).rejects.toThrow(NoArchive);
    await expect(take(empty(), sealed({ revision: sound }, { revision: { ...sound, id: "b" } }, { revision: { ...sound, revision: 2 } }))).rejects.toThrow(/not in order at line 4/);
    await expect(take(empty(), sealed({ archive: "clampside" }))).rejects.toThrow(NoArchive);
  });

  it("of the first version, in which a rehearsal came with its log, is taken as it is", async () => {
    const day = { kind: "rehearsal", id: nameOf(1), body: answer(nameOf(1)).body.toString("base64"), log: deflateSync("told").toString("base64") };
    const all = [{ archive: "clampside", version: 1, engine: "0.2.0", madeAt: "2026-01-01T00:00:00.000Z" }, { answer: day }].map((line) => `${JSON.stringify(line)}\n`).join("");
    const to = empty();
    expect(await take(to, all + JSON.stringify({ end: { lines: 2, sha256: createHash("sha256").update(all).digest("hex") } }))).toMatchObject({ answers: 1 });
    expect(String(to.answers.get("rehearsal", nameOf(1))?.log)).toBe("told");
  });

  it("that changes between the look through it and the taking brings nothing", async () => {
    const [from, other, to] = [empty(), empty(), empty()];
    happen(from, [{ id: "a", text: "x" }, { id: "b", text: "x" }]);
    happen(other, [{ id: "a", text: "x" }, { id: "b", text: "y" }]);
    const looked = await lookThrough(linesIn(archive(from)));
    expect(() => takeArchive(to, linesIn(archive(other)), looked, () => false)).toThrow(/changed while it was read/);
    expect(() => takeArchive(to, linesIn(archive(from)).slice(0, -1), looked, () => false)).toThrow(/breaks off/);
    expect(contents(to).scenarios).toEqual({});
  });

  it("holds a folder as it was when it was begun, though others save meanwhile", async () => {
    const from = empty();
    for (let i = 0; i < 45; i += 1) from.scenarios.save(`s${i % 3}`, written(String(i)), i);
    const lines = archiveOf(from, new Date(0));
    let text = lines.next().value as string;
    for (const line of lines) {
      from.scenarios.save("s0", written("later"), 99);
      from.scenarios.save(`z${from.scenarios.list().length}`, written("later"), 99);
      text += line;
    }
    const to = empty();
    expect(await take(to, text)).toMatchObject({ added: 3 });
    expect(["s0", "s1", "s2"].map((id) => to.scenarios.newest(id)?.revision)).toEqual([15, 15, 15]);
  });

  it("of answers brings those that have room, and pushes none out", async () => {
    const from = empty();
    from.answers.put([1, 2, 3].map((n) => answer(nameOf(n), 1_000)));
    const to = empty({ answerBytes: 3_300 });
    to.answers.put([answer(nameOf(3), 1_000), answer(nameOf(9), 1_000)]);
    expect(await take(to, archive(from))).toMatchObject({ answers: 1 });
    expect(to.answers.keys().map(({ id }) => id)).toEqual([nameOf(3), nameOf(9), nameOf(1)]);
  });

  it("with more than a folder keeps brings nothing", async () => {
    const from = empty();
    happen(from, [{ id: "a", text: "x" }, { id: "b", text: "x" }, { id: "b", text: "y" }]);
    for (const bounds of [{ scenarios: 1 }, { revisions: 1 }]) {
      const to = empty(bounds);
      await expect(take(to, archive(from))).rejects.toThrow(/than a folder keeps/);
      expect(contents(to).scenarios).toEqual({});
    }
  });
});

describe("the lines of a file", () => {
  it("come out as they went in, wherever they are cut for reading", () => {
    const file = join(newFolder(), "lines");
    const lines = ["", "short", "é".repeat(200_000), "", `x${"ü".repeat(300_000)}`, "end"];
    for (const last of ["", "\n"]) {
      writeFileSync(file, lines.join("\n") + last);
      expect([...linesOf(file)]).toEqual(lines);
    }
    writeFileSync(file, "");
    expect([...linesOf(file)]).toEqual([]);
  });
});

describe("kept answers", () => {
  it("let go of what was not asked for longest, so that the rest fits", () => {
    const store = empty({ answerBytes: 3_300 });
    store.answers.put([1, 2, 3].map((n) => answer(nameOf(n), 1_000)));
    expect(store.answers.get("study", nameOf(1))).toBeDefined();
    store.answers.put([answer(nameOf(4), 1_000)]);
    expect(store.answers.keys().map(({ id }) => id)).toEqual([nameOf(3), nameOf(1), nameOf(4)]);
    expect(store.answers.bytes).toBeLessThanOrEqual(3_300);
  });
});
