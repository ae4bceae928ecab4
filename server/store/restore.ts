/** Taking an archive on: looked through to its last line first, then put beside what is here, all of it or nothing. */
import { promisify } from "node:util";
import { inflate } from "node:zlib";
import { readDocument } from "../../sim/scenario/document.ts";
import { digest } from "../documents.ts";
import { deeperThan } from "../jsontext.ts";
import { INFLATED } from "./answers.ts";
import type { PackedAnswer } from "./answers.ts";
import { NoArchive, recordsOf } from "./archive.ts";
import { LONGEST_ID } from "./scenarios.ts";
import type { Revision } from "./scenarios.ts";
import type { Store } from "./store.ts";

/** Objects inside one another in a kept scenario, at the most; those that come in by themselves are held tighter, see limits.ts. */
const DEPTH = 32;

/** Id -> a digest of each revision, the first one first. */
export type Histories = ReadonlyMap<string, readonly string[]>;

export interface Taken {
  /** scenarios that were not here */ readonly added: number;
  /** that went on from what was here */ readonly continued: number;
  /** that were here already */ readonly same: number;
  /** of the same name with another history, and the name theirs was put under */ readonly renamed: readonly { readonly from: string; readonly to: string }[];
  readonly answers: number;
}

/** Looks through a whole archive, with a pause for others after each line. @throws NoArchive */
export async function lookThrough(lines: Iterable<string>): Promise<Histories> {
  const histories = new Map<string, string[]>();
  for (const record of recordsOf(lines)) {
    if ("answer" in record) await checkAnswer(record.answer);
    else {
      const { revision } = record;
      if (!canBeRead(revision)) throw new NoArchive(`Revision ${revision.revision} of ${revision.id} in the archive cannot be read.`);
      const history = histories.get(revision.id);
      if (history) history.push(digestOf(revision));
      else histories.set(revision.id, [digestOf(revision)]);
    }
    await new Promise((resolve) => setImmediate(resolve));
  }
  return histories;
}

/**
 * Puts what is in an archive, as it was looked through, beside what is here. Nothing here is changed or lost: a history that is here already stays, one
 * that goes on from here is gone on with, another one under the same name gets a name of its own. `isReserved` tells names that nothing is kept under.
 * @throws NoArchive, StoreTrouble; then nothing was taken
 */
export function takeArchive(store: Store, lines: Iterable<string>, histories: Histories, isReserved: (id: string) => boolean): Taken {
  return store.with(({ database, scenarios, answers }) => database.transaction((): Taken => {
    const places = new Map<string, Place>();
    const placeOf = (id: string): Place => {
      const found = places.get(id) ?? placeFor(id, histories, (ours) => scenarios.history(ours).map(digestOf), isReserved);
      places.set(id, found);
      return found;
    };
    let taken = 0;
    let { room } = answers;
    for (const record of recordsOf(lines)) {
      if ("answer" in record) {
        const bytes = answers.add(record.answer, room);
        room -= bytes;
        if (bytes > 0) taken += 1;
        continue;
      }
      const { revision } = record;
      if (histories.get(revision.id)?.[revision.revision - 1] !== digestOf(revision)) throw new NoArchive("The archive changed while it was read.");
      const { to, had } = placeOf(revision.id);
      if (revision.revision <= had) continue;
      const hindrance = scenarios.take({ ...revision, id: to });
      if (hindrance) throw new NoArchive(`More ${hindrance === "too-many-scenarios" ? "scenarios" : "revisions of one scenario"} than a folder keeps would come together.`);
    }
    const all = [...places].map(([from, { to, had }]) => ({ from, to, had, all: histories.get(from)!.length }));
    const changed = all.filter((place) => place.had < place.all);
    return {
      added: changed.filter(({ from, to, had }) => had === 0 && to === from).length,
      continued: changed.filter(({ had }) => had > 0).length,
      same: all.length - changed.length,
      renamed: changed.filter(({ from, to }) => to !== from).map(({ from, to }) => ({ from, to })),
      answers: taken,
    };
  }).immediate());
}

interface Place {
  readonly to: string;
  /** revisions of theirs that are here */ readonly had: number;
}

/** The first of `name`, `name-imported`, `name-imported-2` ... where no other history stands. */
function placeFor(id: string, histories: Histories, here: (id: string) => readonly string[], isReserved: (id: string) => boolean): Place {
  const theirs = histories.get(id)!;
  for (let n = 0; ; n += 1) {
    const to = n === 0 ? id : `${id.slice(0, LONGEST_ID - 14).replace(/-$/, "")}-imported${n === 1 ? "" : `-${n}`}`;
    if (isReserved(to) || (n > 0 && histories.has(to))) continue;
    const ours = here(to).slice(0, theirs.length);
    if (ours.every((each, i) => each === theirs[i])) return { to, had: ours.length };
  }
}

const digestOf = ({ form, text }: Revision): string => digest(JSON.stringify([form, text]));

/** Whether a text can be given out in either form. Whether this engine finds it sound is no matter: an older one did. */
function canBeRead({ form, text }: Revision): boolean {
  if (text === null) return true;
  if (form === "yaml") return !("problem" in readDocument(text));
  try {
    return !deeperThan(text, DEPTH) && JSON.parse(text) !== undefined;
  } catch {
    return false;
  }
}

const inflated = promisify(inflate);

/** All of it can be unpacked, and the first says that it is the answer of that id. What the answer says is believed, as in a folder of one's own. */
async function checkAnswer({ id, body, log }: PackedAnswer): Promise<void> {
  try {
    if (log) await inflated(log, INFLATED);
    const document = JSON.parse((await inflated(body, INFLATED)).toString()) as { id?: unknown } | null;
    if (document?.id === id) return;
  } catch {
    // Told below.
  }
  throw new NoArchive(`The answer ${id} in the archive cannot be read.`);
}
