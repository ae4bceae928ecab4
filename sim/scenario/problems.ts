/** Collects what is wrong with a document: one sentence each, with its place in the words of the file and as a JSON pointer. */
import type { z } from "zod";
import { LIMITS } from "./limits.ts";
import type { Problem } from "./types.ts";
import { clipped, listed, nearest, pathOf, pointerOf } from "./words.ts";
import type { Path } from "./words.ts";

export class Problems {
  readonly list: Problem[] = [];
  private told = 0;

  /** @param called what the document is, at the start of a sentence about all of it */
  constructor(private readonly called = "The scenario") {}

  /** `ending` finishes the sentence that begins with the place: "is missing: ...". */
  add(path: Path, ending: string): void {
    this.tell(path, `${path.length > 0 ? pathOf(path) : this.called} ${ending}${ending.endsWith("?") ? "" : "."}`);
  }

  /** A whole sentence for a place. The last one tells how many more there were. */
  tell(path: Path, sentence: string): void {
    this.told += 1;
    const over = this.told - LIMITS.problems;
    if (over <= 0) this.list.push({ pointer: pointerOf(path), detail: sentence });
    else this.list[LIMITS.problems] = { pointer: "", detail: `There ${over === 1 ? "is 1 more problem" : `are ${over} more problems`}; mend these first.` };
  }

  /** A key that may not stand here. */
  unknownKey(path: Path, known: readonly string[]): void {
    // Past the last that is told there is nobody to offer the nearest key to.
    if (this.told >= LIMITS.problems) return this.tell(path, "");
    const key = String(path.at(-1));
    const near = nearest(key, known);
    const would = near ? `; did you mean ${near}?` : known.length > 0 ? `; known here: ${listed(known, "and")}.` : ".";
    const where = path.length > 1 ? ` in ${pathOf(path.slice(0, -1))}` : "";
    this.tell(path, `There is no key "${clipped(key)}"${where}${would}`);
  }

  /** How many there are so far, told or only counted. */
  get count(): number {
    return this.told;
  }
}

/** Turns what zod found into sentences. Messages are the endings written in pieces.ts. */
export function addIssues(problems: Problems, issues: readonly z.core.$ZodIssue[], base: Path = []): void {
  for (const issue of issues) {
    const path = [...base, ...issue.path] as Path;
    if (issue.code === "unrecognized_keys") {
      for (const key of issue.keys) problems.unknownKey([...path, key], issue.message.split(" "));
    } else if (issue.code === "invalid_union" && meant(issue.errors)) {
      addIssues(problems, meant(issue.errors)!, path);
    } else {
      problems.add(path, issue.message);
    }
  }
}

/** Of a union's branches, the one whose kind of value was written: it has no quarrel with the value as a whole. */
function meant(branches: readonly (readonly z.core.$ZodIssue[])[]): readonly z.core.$ZodIssue[] | undefined {
  return branches.find((issues) => issues.length > 0 && issues.every((issue) => issue.path.length > 0 || issue.code === "unrecognized_keys" || issue.code === "custom" || issue.code === "too_small" || issue.code === "too_big"));
}
