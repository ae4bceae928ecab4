/** What is wrong with the words of a command line, in the house's sentences instead of the parser's. */
import { found } from "../../sim/scenario/words.ts";
import { printable } from "./terminal.ts";

/** What commander says, and what is said instead. */
const SENTENCES: readonly (readonly [said: RegExp, instead: (...parts: string[]) => string])[] = [
  [/^unknown (command|option) '(.*?)'(?:\n\(Did you mean (?:one of )?(.*)\?\))?$/su, (what, word, near) => `There is no ${what} ${found(word)}${near ? `; did you mean ${near}?` : "."}`],
  [/^missing required argument '(.*)'$/su, (what) => `The <${what}> is missing.`],
  [/^option '(.*)' argument missing$/su, (option) => `${option} wants a value.`],
  [/^option '(--[\w-]+).*?' argument '(.*)' is invalid\. Allowed choices are (.*)\.$/su, (option, value, choices) => `${option} is ${found(value)}: one of ${choices} would do.`],
  [/^option '(--[\w-]+).*?' argument '(.*)' is invalid\. (.*)$/su, (option, value, would) => `${option} is ${found(value)}: ${would}`],
  [/^too many arguments(?: for '.*')?\. Expected (\d+) arguments? but got (\d+)/su, (wanted, given) => `${given} names are given where ${wanted} would do.`],
];

/** The sentence for the user; the parser's own where it says something new. */
export function wrongUse(said: string): string {
  const plain = said.replace(/^error: /u, "");
  for (const [pattern, instead] of SENTENCES) {
    const [, ...parts] = pattern.exec(plain) ?? [];
    if (parts.length > 0) return instead(...parts);
  }
  return printable(plain);
}
