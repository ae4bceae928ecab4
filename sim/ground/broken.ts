/** Where a text stops being JSON. The engine's own parser says so only at times, and each engine in other words. */

const SPACE = /[ \t\r\n]*/uy;
const SCALAR = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/uy;

/** What may come next. A first item or key may be missing: its list or group is then empty. */
type Expected = "value" | "first item" | "key" | "first key" | "colon" | "end";

/** The offset of the first character that no JSON could have there; the length of the text when it breaks off. Null for sound JSON. */
export function brokenAt(text: string): number | null {
  const open: ("]" | "}")[] = [];
  let expected: Expected = "value";
  for (let at = skipped(text, 0); at < text.length; at = skipped(text, at)) {
    const mark = text[at]!;
    if (expected === "end") {
      const within = open.at(-1);
      if (mark === within) open.pop();
      else if (mark === "," && within) expected = within === "}" ? "key" : "value";
      else return at;
    } else if (expected === "colon") {
      if (mark !== ":") return at;
      expected = "value";
    } else if ((expected === "first item" && mark === "]") || (expected === "first key" && mark === "}")) {
      open.pop();
      expected = "end";
    } else if (expected === "key" || expected === "first key") {
      if (mark !== "\"") return at;
      const after = afterString(text, at);
      if (after === null) return at;
      at = after;
      expected = "colon";
      continue;
    } else if (mark === "{" || mark === "[") {
      open.push(mark === "{" ? "}" : "]");
      expected = mark === "{" ? "first key" : "first item";
    } else {
      const after = mark === "\"" ? afterString(text, at) : afterScalar(text, at);
      if (after === null) return at;
      at = after;
      expected = "end";
      continue;
    }
    at += 1;
  }
  return expected === "end" && open.length === 0 ? null : text.length;
}

function skipped(text: string, at: number): number {
  SPACE.lastIndex = at;
  return at + (SPACE.exec(text)?.[0].length ?? 0);
}

function afterScalar(text: string, at: number): number | null {
  SCALAR.lastIndex = at;
  const found = SCALAR.exec(text)?.[0];
  return found === undefined ? null : at + found.length;
}

/** Behind the closing quote; null for a string that never ends or holds what none may. */
function afterString(text: string, at: number): number | null {
  for (let i = at + 1; i < text.length; i += 1) {
    if (text[i] === "\"") return i + 1;
    if (text.charCodeAt(i) < 0x20) return null;
    if (text[i] === "\\") {
      if (!/^(?:["\\/bfnrt]|u[\da-fA-F]{4})/u.test(text.slice(i + 1, i + 6))) return null;
      i += 1;
    }
  }
  return null;
}
