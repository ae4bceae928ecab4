/** What tickets tell, written into the text of a scenario file. */
import { isMap, parseDocument } from "yaml";
import { pathOf } from "../../scenario/words.ts";
import { variationSaid, type Patch } from "./patch.ts";

/** The scenario file with the changes in it, each with its reason as a comment; what else stands there stays. */
export function patchedText(text: string, { changes }: Patch): string {
  const document = parseDocument(text, { version: "1.2", schema: "core" });
  const variation = document.get("variation");
  if (changes.some(({ path }) => path[0] === "variation") && !isMap(variation)) document.set("variation", document.createNode(variationSaid(variation)));
  for (const { path, value } of changes) document.setIn(path, document.createNode(value, typeof value === "string" ? {} : { flow: true }));
  const told = changes.map(({ path, n, because }) => ` From weigh tickets: ${pathOf(path)}, ${n} tickets, ${because}`).join("\n");
  if (told !== "") document.commentBefore = document.commentBefore ? `${document.commentBefore}\n\n${told}` : told;
  // Pairs in braces are written as the file has them, close or with blanks.
  return document.toString({ lineWidth: 0, flowCollectionPadding: !/\{\S[^{}]*\}/u.test(text) });
}
