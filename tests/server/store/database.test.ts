import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, readFileSync, readdirSync, renameSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterAll, describe, expect, it } from "vitest";
import { LIMITS } from "../../../server/limits.ts";
import { DATABASE_FILE, openDatabase } from "../../../server/store/database.ts";
import { usualFolder } from "../../../server/store/folder.ts";
import { MIGRATIONS } from "../../../server/store/migrations.ts";
import { Store } from "../../../server/store/store.ts";
import { StoreTrouble } from "../../../server/store/trouble.ts";
import { newFolder, removeFolders } from "../../temporary.ts";

/** A disk of 3 MB in memory, where this account may mount one; else null. */
function mountSmallDisk(): string | null {
  const folder = newFolder();
  return process.getuid?.() === 0 && spawnSync("mount", ["-t", "tmpfs", "-o", "size=3m", "tmpfs", folder]).status === 0 ? folder : null;
}
const smallDisk = mountSmallDisk();

afterAll(() => {
  if (smallDisk) spawnSync("umount", [smallDisk]);
  removeFolders();
});

const written = (text: string) => ({ form: "json" as const, text, name: "Test", hash: "h" });
const fileIn = (folder: string) => join(folder, DATABASE_FILE);
const open = (folder: string, bounds: Partial<typeof LIMITS> = {}) => new Store(folder, { ...LIMITS, ...bounds });
/** What opening or work is refused with. */
function troubleIn(work: () => unknown): StoreTrouble {
  try {
    work();
  } catch (error) {
    expect(error).toBeInstanceOf(StoreTrouble);
    return error as StoreTrouble;
  }
  throw new Error("Nothing was refused.");
}

describe("a data folder", () => {
  it("is made with all above it on first start, for its owner only, and holds one file when the server has ended", () => {
    const folder = join(newFolder(), "a", "b");
    const store = open(folder);
    store.scenarios.save("one", written("{}"), 5);
    store.close();
    expect(readdirSync(folder)).toEqual([DATABASE_FILE]);
    if (process.platform !== "win32") expect(statSync(folder).mode & 0o077).toBe(0);
  });

  it("keeps what it was given over a restart, in full sync with a write-ahead log", () => {
    const folder = newFolder();
    const store = open(folder);
    expect(store.database.pragma("journal_mode", { simple: true })).toBe("wal");
    const syncs = () => store.database.pragma("synchronous", { simple: true });
    expect(syncs()).toBe(2);
    // Answers are not waited for; what is saved after them is again, also where one could not be put.
    const answer = { kind: "study" as const, id: "a", body: new Uint8Array(1), log: null, question: null };
    store.answers.put([answer]);
    expect(syncs()).toBe(2);
    expect(() => store.answers.put([{ ...answer, kind: "other" as "study" }])).toThrow(/CHECK/);
    expect(syncs()).toBe(2);
    store.scenarios.save("one", written("first"), 5);
    store.close();
    const again = open(folder);
    expect(again.scenarios.newest("one")).toEqual({ id: "one", revision: 1, savedAt: 5, form: "json", name: "Test", hash: "h", text: "first" });
    expect(again.isSound()).toBe(true);
    again.close();
  });

  it("has the place that each platform means for such data, and passes over one that is not absolute", () => {
    expect(usualFolder("linux", {}, "/home/ann")).toBe(join("/home/ann", ".local", "share", "clampside"));
    expect(usualFolder("linux", { XDG_DATA_HOME: "/data" }, "/home/ann")).toBe(join("/data", "clampside"));
    expect(usualFolder("linux", { XDG_DATA_HOME: "data" }, "/home/ann")).toBe(join("/home/ann", ".local", "share", "clampside"));
    expect(usualFolder("darwin", {}, "/Users/ann")).toBe(join("/Users/ann", "Library", "Application Support", "Clampside"));
    expect(usualFolder("win32", { LOCALAPPDATA: "L" }, "C")).toBe(join("L", "Clampside"));
    expect(usualFolder("win32", {}, "C")).toBe(join("C", "AppData", "Local", "Clampside"));
  });

  it("is for one server at a time, and the second is told so without harm to the first", () => {
    const folder = newFolder();
    const first = open(folder);
    first.scenarios.save("one", written("first"), 5);
    const trouble = troubleIn(() => open(folder));
    expect([trouble.kind, trouble.message]).toEqual(["in-use", expect.stringContaining("Another Clampside is using")]);
    first.scenarios.save("one", written("second"), 6);
    expect(first.scenarios.newest("one")?.text).toBe("second");
    first.close();
    open(folder).close();
  });

  it("tells a file in its place, and one that cannot be a folder", () => {
    const folder = newFolder();
    writeFileSync(join(folder, "plain"), "text");
    expect(troubleIn(() => open(join(folder, "plain"))).message).toContain("is a file, not a folder");
    expect(troubleIn(() => open(join(folder, "plain", "below"))).message).toContain("is a file, not a folder");
  });

  it("says that it may not be written when it may not", () => {
    const folder = newFolder();
    const store = open(folder);
    store.scenarios.save("one", written("first"), 5);
    store.close();
    const before = readFileSync(fileIn(folder));
    // Whoever runs as root may write anywhere; a process of nobody's may not.
    const isRoot = process.getuid?.() === 0;
    const script = `
      import { Store } from ${JSON.stringify(new URL("../../../server/store/store.ts", import.meta.url).href)};
      import { LIMITS } from ${JSON.stringify(new URL("../../../server/limits.ts", import.meta.url).href)};
      try { new Store(${JSON.stringify(folder)}, LIMITS); console.log("opened"); } catch (error) { console.log(error.kind + ": " + error.message); }`;
    spawnSync("chmod", ["-R", "a+rX,a-w", folder]);
    const { stdout, stderr } = spawnSync(process.execPath, ["--import", "tsx", "--input-type=module", "-e", script], {
      cwd: join(import.meta.dirname, "../../.."), encoding: "utf8", env: { ...process.env, TSX_DISABLE_CACHE: "1" }, ...(isRoot ? { uid: 65_534, gid: 65_534 } : {}),
    });
    spawnSync("chmod", ["-R", "u+w", folder]);
    expect(stdout, stderr).toMatch(/^read-only: .* may not be written by this account/);
    expect(readFileSync(fileIn(folder)).equals(before)).toBe(true);
  });

  it("keeps everything it had when nothing more fits, says so, and takes saves again when there is room", () => {
    const folder = newFolder();
    const small = open(folder, { folderBytes: 300_000 });
    const text = "x".repeat(20_000);
    let kept = 0;
    const trouble = troubleIn(() => small.with(({ scenarios }) => { for (;; kept += 1) scenarios.save("one", written(text), kept); }));
    expect(trouble.kind).toBe("full");
    expect(trouble.message).toContain("holds all it may, 300,000 bytes. What was kept before is still there");
    expect(kept).toBeGreaterThan(5);
    expect(small.scenarios.newest("one")?.revision).toBe(kept);
    expect(small.isSound()).toBe(true);
    small.close();
    const roomy = open(folder);
    expect(roomy.scenarios.revisions("one").length).toBe(kept);
    roomy.scenarios.save("one", written("more"), 9);
    roomy.close();
  });

  it.skipIf(!smallDisk)("keeps everything it had when the disk itself is full, and says so", () => {
    const store = open(smallDisk!);
    const text = "x".repeat(20_000);
    let kept = 0;
    const trouble = troubleIn(() => store.with(({ scenarios }) => { for (;; kept += 1) scenarios.save("one", written(text), kept); }));
    expect(trouble.message).toContain("the disk is full. What was kept before is still there");
    store.close();
    const again = open(smallDisk!);
    expect(kept).toBeGreaterThan(5);
    expect(again.scenarios.revisions("one").length).toBe(kept);
    expect(again.isSound()).toBe(true);
    again.close();
  });

  it("notices that its file was moved away or replaced, and keeps nothing that would be lost", () => {
    const folder = newFolder();
    const store = open(folder);
    store.with(({ scenarios }) => scenarios.save("one", written("first"), 5));
    renameSync(fileIn(folder), join(folder, "elsewhere"));
    expect(troubleIn(() => store.with(({ scenarios }) => scenarios.save("one", written("second"), 6))).kind).toBe("gone");
    writeFileSync(fileIn(folder), "");
    expect(troubleIn(() => store.with(({ scenarios }) => scenarios.save("one", written("second"), 6))).message).toContain("moved or removed");
    store.close();
  });
});

describe("a damaged file", () => {
  /** A folder with 40 saves, and its file changed by the test. */
  function damaged(change: (bytes: Buffer) => Buffer) {
    const folder = newFolder();
    const store = open(folder);
    for (let i = 0; i < 40; i += 1) store.scenarios.save("one", written(`text ${i} `.repeat(500)), i);
    store.close();
    const bytes = change(readFileSync(fileIn(folder)));
    writeFileSync(fileIn(folder), bytes);
    return { folder, bytes };
  }

  it("is told as damaged and left as it is, whatever is wrong with it", () => {
    const changes: ((bytes: Buffer) => Buffer)[] = [
      () => Buffer.from("this is no database ".repeat(400)),
      (bytes) => bytes.subarray(0, bytes.length - 8_192),
      (bytes) => { bytes.fill(0xff, 4_096, bytes.length - 4_096); return bytes; },
      // A page in the middle that holds something else.
      (bytes) => { bytes.fill(0x2e, 8 * 4_096, 9 * 4_096); return bytes; },
    ];
    for (const change of changes) {
      const { folder, bytes } = damaged(change);
      const trouble = troubleIn(() => open(folder));
      expect([trouble.kind, trouble.message]).toEqual(["damaged", expect.stringMatching(/is damaged\. It was left as it is\..*--data/)]);
      expect(readFileSync(fileIn(folder)).equals(bytes)).toBe(true);
    }
  });

  it("is told with the copies that stand beside it", () => {
    const { folder } = damaged(() => Buffer.from("this is no database ".repeat(400)));
    writeFileSync(join(folder, "before-2.sqlite"), "");
    expect(troubleIn(() => open(folder)).message).toContain("An earlier copy stands beside it: before-2.sqlite.");
  });

  it("of another program, or of a newer Clampside, is left alone", () => {
    const folder = newFolder();
    const other = new Sqlite(fileIn(folder));
    other.exec("CREATE TABLE theirs (x)");
    other.close();
    const before = readFileSync(fileIn(folder));
    expect(troubleIn(() => open(folder)).message).toContain("was not made by Clampside");
    expect(readFileSync(fileIn(folder)).equals(before)).toBe(true);

    const ours = newFolder();
    open(ours).close();
    const newer = new Sqlite(fileIn(ours));
    newer.pragma(`user_version = ${MIGRATIONS.length + 1}`);
    newer.close();
    expect(troubleIn(() => open(ours)).message).toContain("made by a newer Clampside");
  });
});

describe("tables of an earlier version", () => {
  const bounds = { mostBytes: LIMITS.folderBytes };
  const next = [...MIGRATIONS, "ALTER TABLE scenario ADD COLUMN colour TEXT"];

  function folderWithOne(): string {
    const folder = newFolder();
    const store = open(folder);
    store.scenarios.save("one", written("first"), 5);
    store.close();
    return folder;
  }

  it("are brought on with what is in them, and a whole copy of before stands beside", () => {
    const folder = folderWithOne();
    const database = openDatabase(folder, { ...bounds, migrations: next });
    expect(database.prepare("SELECT id, latest, colour FROM scenario").all()).toEqual([{ id: "one", latest: 1, colour: null }]);
    expect(database.pragma("user_version", { simple: true })).toBe(next.length);
    database.close();
    const copy = `before-${next.length}.sqlite`;
    expect(readdirSync(folder).sort()).toEqual([copy, DATABASE_FILE].sort());

    const back = newFolder();
    copyFileSync(join(folder, copy), fileIn(back));
    const before = open(back);
    expect(before.scenarios.newest("one")?.text).toBe("first");
    expect(before.isSound()).toBe(true);
    before.close();
  });

  it("stay as they were when a step fails", () => {
    const folder = folderWithOne();
    expect(() => openDatabase(folder, { ...bounds, migrations: [...next, "INSERT INTO nowhere VALUES (1)"] })).toThrow(/nowhere/);
    const before = open(folder);
    expect(before.scenarios.newest("one")?.text).toBe("first");
    expect(before.database.prepare("SELECT * FROM scenario").all()).toEqual([{ id: "one", latest: 1 }]);
    before.close();
  });

  it("are copied anew where an earlier copy broke off", () => {
    const folder = folderWithOne();
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, `before-${next.length}.sqlite.part`), "half a copy");
    openDatabase(folder, { ...bounds, migrations: next }).close();
    expect(existsSync(join(folder, `before-${next.length}.sqlite.part`))).toBe(false);
    expect(readFileSync(join(folder, `before-${next.length}.sqlite`)).subarray(0, 15).toString()).toBe("SQLite format 3");
  });
});
