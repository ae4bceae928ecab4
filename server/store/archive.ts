/**
 * The whole data folder as one file: JSON lines, a head, a line for each revision and each answer, and a last line that says how many they were
 * and what they hash to, so that a file cut short or altered is known as such. It can be read without this program.
 */
import { createHash } from "node:crypto";
import { closeSync, openSync, readSync } from "node:fs";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { bytesOf, type PackedAnswer } from "./answers.ts";
import { ID, LONGEST_ID } from "./scenarios.ts";
import type { Revision } from "./scenarios.ts";
import type { Store } from "./store.ts";

/** Raised when a line changes its meaning. In the first a rehearsal came with its day's log, now with its question. */
export const ARCHIVE_VERSION = 2;
export const ARCHIVE_TYPE = "application/x-ndjson";

/** Revisions read at once while others save. */
const PAGE = 20;
/** Bytes of the longest line: a scenario at its largest takes a tenth of it. */
const LONGEST_LINE = 64 * 1024 * 1024;
/** Bytes of an answer that still fits a line once it is written in letters. A larger one stays behind: it can be worked out again. */
const LARGEST_ANSWER = LONGEST_LINE / 2;

/** A file that is no archive, or not a whole one, or does not fit here; nothing of it was taken. */
export class NoArchive extends Error {}

export type ArchiveRecord = { readonly revision: Revision } | { readonly answer: PackedAnswer };

/** The lines of a folder as it is when the first is asked for; what is saved after that is not in it. Line ends included. @throws StoreTrouble */
export function* archiveOf(store: Store, now: Date): Generator<string> {
  const hash = createHash("sha256");
  let lines = 0;
  const line = (value: object): string => {
    const text = `${JSON.stringify(value)}\n`;
    hash.update(text);
    lines += 1;
    return text;
  };
  const last = store.with(({ scenarios }) => scenarios.lastRow());
  yield line({ archive: "clampside", version: ARCHIVE_VERSION, engine: ENGINE_VERSION, madeAt: now.toISOString() });
  for (let from = { id: "", revision: 0 }; ;) {
    const page = store.with(({ scenarios }) => scenarios.page(from, last, PAGE));
    for (const revision of page) yield line({ revision });
    if (page.length < PAGE) break;
    from = page.at(-1)!;
  }
  for (const { kind, id } of store.with(({ answers }) => answers.keys())) {
    const answer = store.with(({ answers }) => answers.packed(kind, id));
    // One that was let go meanwhile can be worked out again.
    if (answer === undefined || bytesOf(answer) > LARGEST_ANSWER) continue;
    const { body, log, question } = answer;
    yield line({ answer: { kind, id, body: base64(body), ...(log && { log: base64(log) }), ...(question && { question: base64(question) }) } });
  }
  yield `${JSON.stringify({ end: { lines, sha256: hash.digest("hex") } })}\n`;
}

const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64");

/** The lines of a file, one in memory at a time. @throws NoArchive for one that is longer than any of ours */
export function* linesOf(file: string): Generator<string> {
  const handle = openSync(file, "r");
  try {
    const chunk = Buffer.allocUnsafe(256 * 1024);
    let parts: Buffer[] = [];
    let bytes = 0;
    for (let read = readSync(handle, chunk); read > 0; read = readSync(handle, chunk)) {
      let from = 0;
      for (let end = chunk.indexOf("\n"); end >= 0 && end < read; end = chunk.indexOf("\n", from)) {
        yield Buffer.concat([...parts, chunk.subarray(from, end)]).toString();
        parts = [];
        bytes = 0;
        from = end + 1;
      }
      parts.push(Buffer.from(chunk.subarray(from, read)));
      bytes += read - from;
      if (bytes > LONGEST_LINE) throw new NoArchive("This is no archive of Clampside: it has a line longer than any of ours.");
    }
    if (bytes > 0) yield Buffer.concat(parts).toString();
  } finally {
    closeSync(handle);
  }
}

/** What is in an archive, in order: every scenario's revisions together from the first on, then the answers. @throws NoArchive, at the last line for one that was altered */
export function* recordsOf(lines: Iterable<string>): Generator<ArchiveRecord> {
  const hash = createHash("sha256");
  const seen = new Set<string>();
  let current = { id: "", revision: 0 };
  let number = 0;
  let hasEnded = false;
  for (const text of lines) {
    const place = `line ${number + 1}`;
    if (hasEnded) throw new NoArchive("Something stands behind the end of the archive.");
    const value = recordOf(text, place);
    if (number === 0) {
      if (value.archive !== "clampside") throw new NoArchive("This is no archive of Clampside: its first line does not say so.");
      if (value.version !== 1 && value.version !== ARCHIVE_VERSION) throw new NoArchive(`This archive was made by another Clampside: it is of version ${String(value.version).slice(0, 9)}, not ${ARCHIVE_VERSION}.`);
    } else if (value.revision !== undefined) {
      const revision = revisionOf(value.revision, place);
      const isNext = revision.id === current.id ? revision.revision === current.revision + 1 : revision.revision === 1 && !seen.has(revision.id);
      if (!isNext) throw new NoArchive(`The revisions of ${revision.id} are not in order at ${place}.`);
      seen.add(revision.id);
      current = revision;
      yield { revision };
    } else if (value.answer !== undefined) yield { answer: answerOf(value.answer, place) };
    else {
      const { lines: count, sha256 } = (value.end ?? {}) as { lines?: unknown; sha256?: unknown };
      if (count !== number || sha256 !== hash.digest("hex")) throw new NoArchive("The archive was altered since it was made: its last line does not fit the rest.");
      hasEnded = true;
      continue;
    }
    hash.update(`${text}\n`);
    number += 1;
  }
  if (number === 0) throw new NoArchive("The file is empty.");
  if (!hasEnded) throw new NoArchive("The archive breaks off: its last line is missing.");
}

function recordOf(text: string, place: string): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === "object" && value !== null) return value as Record<string, unknown>;
  } catch {
    // Told below.
  }
  throw new NoArchive(`This is no whole archive of Clampside: ${place} is not JSON.`);
}

/** ms since 1970 that are a date. */
const LATEST = 8.64e15;

function revisionOf(value: unknown, place: string): Revision {
  const { id, revision, savedAt, form, name, hash, text } = (value ?? {}) as Record<string, unknown>;
  const isSound = typeof id === "string" && ID.test(id) && id.length <= LONGEST_ID && Number.isSafeInteger(revision) && Number.isSafeInteger(savedAt)
    && Math.abs(savedAt as number) <= LATEST && (form === "json" || form === "yaml") && typeof name === "string" && typeof hash === "string" && /^[0-9a-f]{32}$/.test(hash)
    && (text === null || typeof text === "string");
  if (!isSound) throw new NoArchive(`What stands at ${place} is no revision of a scenario.`);
  return { id, revision: revision as number, savedAt: savedAt as number, form, name, hash, text };
}

function answerOf(value: unknown, place: string): PackedAnswer {
  const { kind, id, body, log = null, question = null } = (value ?? {}) as Record<string, unknown>;
  // A rehearsal's day can be told from the one or the other; a study has none.
  const hasDay = [log, question].filter((each) => each !== null).length === 1 && typeof (log ?? question) === "string";
  const isSound = typeof id === "string" && /^[\w-]{22}$/.test(id) && typeof body === "string" && ((kind === "rehearsal" && hasDay) || (kind === "study" && log === null && question === null));
  if (!isSound) throw new NoArchive(`What stands at ${place} is no answer.`);
  const bytes = (part: unknown) => (typeof part === "string" ? Buffer.from(part, "base64") : null);
  return { kind: kind as PackedAnswer["kind"], id, body: Buffer.from(body, "base64"), log: bytes(log), question: bytes(question) };
}
