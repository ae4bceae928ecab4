/** What a plan is naturally held against: the example that its own description names, and the plan itself in another plan's storage. Pure. */
import { at, type Document } from "../document.ts";

/** A worked example, as it is told of. */
interface Told { readonly id: string; readonly name: string; readonly shows: string }

/** Id of the example that this one names as the one to hold it against; null where it names none. */
export function pairOf(id: string, examples: readonly Told[]): string | null {
  const shows = examples.find((each) => each.id === id)?.shows ?? "";
  // A name may be the beginning of another.
  const named = examples.filter((each) => each.id !== id && shows.includes(each.name)).sort((a, b) => b.name.length - a.name.length);
  return named[0]?.id ?? null;
}

/** Before the id of a plan: the reader's own plan, stored as in that one. No plan's id has such a line in it. */
const STORED_AS = "stored_as_";
export const storedAs = (id: string): string => STORED_AS + id;
/** Id of the plan whose storage is meant; null where the choice is a plan itself. */
export const storageOf = (choice: string): string | null => (choice.startsWith(STORED_AS) ? choice.slice(STORED_AS.length) : null);

/** The plan with the other's storages, all else as it is. */
export function withStorageOf(plan: Document, other: Document): Document {
  return { ...plan, storage: at(other, ["storage"]) ?? [] };
}
