/**
 * From the text of a file (YAML, of which JSON is a part) to plain values and the place of each. The work is bounded before the
 * parser begins: by the length of the text, its marks, its nesting and its aliases, see limits.ts.
 */
import { isAlias, isMap, isScalar, isSeq, Lexer, LineCounter, parseDocument } from "yaml";
import type { Document, Node } from "yaml";
import { LIMITS } from "./limits.ts";
import type { Problem } from "./types.ts";
import { formatNumber } from "./units.ts";
import { clipped, pointerOf, printableOnly } from "./words.ts";
import type { Path } from "./words.ts";

export interface ReadDocument {
  readonly value: unknown;
  /** The line and column (from 1) of a JSON pointer, or of the nearest thing around it that is in the text. */
  readonly placeOf: (pointer: string) => { readonly line: number; readonly column: number };
}

/** Thrown and caught in this file: the first thing that stops the reading, at a place of the text. */
class Stop extends Error {
  readonly pointer: string;
  readonly offset: number;
  constructor(sentence: string, offset = 0, path: Path = []) {
    super(sentence);
    this.offset = offset;
    this.pointer = pointerOf(path);
  }
}

/** Reads a text into plain values, or says in one sentence why not. */
export function readDocument(text: string): ReadDocument | { readonly problem: Problem } {
  const lines = new LineCounter();
  try {
    refuseExcess(text);
    const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: false, schema: "core", version: "1.2" });
    const [fault] = [...document.errors, ...document.warnings];
    if (fault) throw new Stop(`This is no sound YAML: ${unended(fault.message)}.`, fault.pos[0]);
    const places = new Map<string, number>([["", 0]]);
    const value = new Plain(document, places).of(document.contents, []);
    return { value, placeOf: (pointer) => at(lines, offsetOf(pointer, places)) };
  } catch (stop) {
    if (stop instanceof Stop) return { problem: { pointer: stop.pointer, detail: stop.message, ...(lines.lineStarts.length > 0 ? at(lines, stop.offset) : at(countedLines(text), stop.offset)) } };
    // The parser is recursive; the limits keep it far from the end of the stack, so this is for what nobody thought of.
    return { problem: { pointer: "", detail: "This is no sound YAML: it could not be read at all.", line: 1, column: 1 } };
  }
}

const unended = (sentence: string): string => clippedLong(sentence.split("\n")[0] ?? "").replace(/[.:]+$/u, "");
const clippedLong = (text: string): string => printableOnly(text.length > 160 ? `${text.slice(0, 159)}…` : text);

function at(lines: LineCounter, offset: number): { line: number; column: number } {
  const { line, col } = lines.linePos(offset);
  return { line: Math.max(1, line), column: Math.max(1, col) };
}

function countedLines(text: string): LineCounter {
  const lines = new LineCounter();
  lines.addNewLine(0);
  for (let i = text.indexOf("\n"); i >= 0; i = text.indexOf("\n", i + 1)) lines.addNewLine(i + 1);
  return lines;
}

function offsetOf(pointer: string, places: ReadonlyMap<string, number>): number {
  for (let here = pointer; ; here = here.slice(0, here.lastIndexOf("/"))) {
    const offset = places.get(here);
    if (offset !== undefined) return offset;
    if (here === "") return 0;
  }
}

/** A scalar's text follows this token of the lexer; it is a word, whatever it begins with. */
const SCALAR_FOLLOWS = "\u001f";
/** Tokens of the lexer that stand for nothing in the text. */
const UNSEEN = [SCALAR_FOLLOWS, "\u0002", "\u0018"];
const TOO_DEEP = `Lists and groups lie more than ${LIMITS.depth} deep inside each other; a scenario needs six.`;
// Everything below a blank but tab and line ends: no text file has them, noise does.
const NO_TEXT = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/u; // eslint-disable-line no-control-regex

/** One pass over the text without recursion: what would make the parser work too long is refused here. */
function refuseExcess(text: string): void {
  const most = (count: number): string => formatNumber(count, 0);
  if (text.length > LIMITS.text) throw new Stop(`The file has ${most(text.length)} characters; up to ${most(LIMITS.text)} would do.`);
  const noise = text.search(NO_TEXT);
  if (noise >= 0) throw new Stop("This is no text: it holds control characters.", noise);
  let [marks, brackets, dashes, aliases, offset] = [0, 0, 0, 0, 0];
  let [isWord, isLineStart] = [false, true];
  const indents: number[] = [];
  for (const token of new Lexer().lex(text)) {
    if (isLineStart && token !== "\n") {
      const indent = /^[ \t]*$/u.test(token) ? token.length : 0;
      while (indents.length > 0 && indents.at(-1)! >= indent) indents.pop();
      indents.push(indent);
    }
    isLineStart = token === "\n" || token === "\r\n";
    if (isWord) isWord = false;
    else if (token === SCALAR_FOLLOWS) isWord = true;
    else if (token === "[" || token === "{") brackets += 1;
    else if (token === "]" || token === "}") brackets -= 1;
    else if (token === "-" || token === "?") dashes += 1;
    else if (isLineStart) dashes = 0;
    else if (token.startsWith("*")) aliases += 1;
    if (isLineStart || token.trim() !== "") marks += 1;
    if (marks > LIMITS.marks) throw new Stop(`The file has more than ${most(LIMITS.marks)} words, marks and lines; a scenario needs far fewer.`, offset);
    if (Math.max(brackets, dashes, indents.length - 1) > LIMITS.depth) throw new Stop(TOO_DEEP, offset);
    if (aliases > LIMITS.aliases) throw new Stop(`There are more than ${LIMITS.aliases} aliases (*name); write the values out.`, offset);
    if (!UNSEEN.includes(token)) offset += token.length;
  }
}

/** Turns the parser's nodes into plain values and notes where each begins. */
class Plain {
  private values = 0;
  private readonly document: Document;
  private readonly places: Map<string, number>;

  constructor(document: Document, places: Map<string, number>) {
    this.document = document;
    this.places = places;
  }

  of(node: unknown, path: Path): unknown {
    const offset = (node as Node | null)?.range?.[0] ?? 0;
    this.values += 1;
    if (this.values > LIMITS.values) throw new Stop(`The file has more than ${formatNumber(LIMITS.values, 0)} values; a scenario needs far fewer.`, offset, path);
    if (path.length > LIMITS.depth) throw new Stop(TOO_DEEP, offset, path);
    if (node === null || node === undefined) return null;
    if (isAlias(node)) {
      const meant = node.resolve(this.document);
      if (!meant) throw new Stop(`Nothing above is marked &${clipped(node.source)}; write the value out.`, offset, path);
      return this.of(meant, path);
    }
    if (isSeq(node)) return node.items.map((item, i) => this.item(item, [...path, i]));
    if (!isMap(node)) return isScalar(node) ? node.value : null;
    const group: Record<string, unknown> = {};
    for (const { key, value } of node.items) {
      const name = this.nameOf(key, offset, path);
      const here = [...path, name];
      const place = (key as Node).range?.[0] ?? offset;
      if (Object.hasOwn(group, name)) throw new Stop(`"${clipped(name)}" stands here twice; leave one of them out.`, place, here);
      if (!this.places.has(pointerOf(here))) this.places.set(pointerOf(here), place);
      // Defined, not assigned: "__proto__" must come out as a key like any other, to be refused like any other.
      Object.defineProperty(group, name, { value: this.of(value, here), enumerable: true, configurable: true, writable: true });
    }
    return group;
  }

  private item(node: unknown, path: Path): unknown {
    const offset = (node as Node | null)?.range?.[0];
    if (offset !== undefined) this.places.set(pointerOf(path), offset);
    return this.of(node, path);
  }

  private nameOf(key: unknown, offset: number, path: Path): string {
    if (isScalar(key) && ["string", "number", "boolean"].includes(typeof key.value)) return String(key.value);
    throw new Stop("A key must be a plain word.", (key as Node | null)?.range?.[0] ?? offset, path);
  }
}
