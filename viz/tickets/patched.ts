/** What tickets tell, written into the reader's own document; what else stands there stays. */
import { variationSaid, type Patch } from "../../sim/study/tickets/patch.ts";
import { at, put, type Document, type Json } from "../document.ts";

export function patchedDocument(document: Document, { changes }: Pick<Patch, "changes">): Document {
  const variation = at(document, ["variation"]);
  const isWord = typeof variation !== "object" || variation === null;
  const begun = isWord && changes.some(({ path }) => path[0] === "variation") ? put(document, ["variation"], variationSaid(variation)) : document;
  return changes.reduce((changed, { path, value }) => put(changed, path, value as Json), begun);
}
