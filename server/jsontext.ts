/** Reading JSON from strangers: how deep it goes is known before anything walks it. */
import { refusals } from "./problems.ts";

/** True when objects and lists lie more than `most` deep inside one another. Looks at the text only, in one pass, without recursion. */
export function deeperThan(text: string, most: number): boolean {
  let depth = 0;
  let inString = false;
  for (let i = 0; i < text.length; i += 1) {
    const character = text[i];
    if (inString) {
      if (character === "\\") i += 1;
      else if (character === "\"") inString = false;
    } else if (character === "\"") inString = true;
    else if (character === "{" || character === "[") {
      depth += 1;
      if (depth > most) return true;
    } else if (character === "}" || character === "]") depth -= 1;
  }
  return false;
}

/** Parses JSON no deeper than `depth`. Throws a `Refusal` that says where it breaks, when the parser knows. */
export function parseJson(text: string, depth: number): unknown {
  if (deeperThan(text, depth)) throw refusals.tooDeep(depth);
  try {
    return JSON.parse(text);
  } catch (error) {
    // The parser's own sentence quotes the body; only the place is taken from it.
    const at = /at position (\d+)/.exec(String(error))?.[1];
    if (at === undefined) throw refusals.brokenJson("it breaks off or holds something that JSON does not know");
    const lines = text.slice(0, Number(at)).split("\n");
    throw refusals.brokenJson(`it breaks at line ${lines.length}, column ${(lines.at(-1) ?? "").length + 1}`);
  }
}
