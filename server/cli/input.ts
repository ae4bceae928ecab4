/** Reads the files named on the command line. What cannot be read or used ends in a `Refusal`: one sentence for each thing wrong. */
import { closeSync, openSync, readSync } from "node:fs";
import { dirname, join } from "node:path";
import { MAP_LIMITS } from "../../sim/ground/limits.ts";
import type { MapOf } from "../../sim/scenario/desk.ts";
import { LIMITS } from "../../sim/scenario/limits.ts";
import { readNow } from "../../sim/scenario/now.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import { takenUp } from "../../sim/harvest/takeup.ts";
import type { DayStart } from "../../sim/harvest/start.ts";
import type { AppliedDefault, Problem, Scenario } from "../../sim/scenario/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { printable } from "./terminal.ts";

/** A command that ends without its result, in the user's words: each line of the message goes to standard error, nothing to standard output. */
export class Refusal extends Error {
  /** 2 for wrong use or unsound input, 1 for what failed */ readonly exitCode: 1 | 2;

  constructor(message: string, { exitCode = 2 }: { readonly exitCode?: 1 | 2 } = {}) {
    super(message);
    this.name = "Refusal";
    this.exitCode = exitCode;
  }
}

export interface Input {
  readonly scenario: Scenario;
  readonly defaults: readonly AppliedDefault[];
  /** the file as written */ readonly text: string;
}

/** Reads and checks one scenario file, and the map files beside it that it names; `-` is standard input. Throws `Refusal`. */
export function readInput(file: string): Input {
  const text = textOf(file);
  const checked = readScenario(text, mapsBeside(file));
  if ("problems" in checked) throw new Refusal(checked.problems.map((problem) => placed(file, problem)).join("\n"));
  return { ...checked, text };
}

/** Reads how things stand at a time of the day, and makes of it what the rest of the day starts from. Throws `Refusal`. */
export function readStart(file: string, scenario: Scenario): DayStart {
  const checked = readNow(textOf(file), scenario);
  if ("problems" in checked) throw new Refusal(checked.problems.map((problem) => placed(file, problem)).join("\n"));
  return takenUp(scenario, checked.now);
}

/** The map files in a scenario's own folder; for standard input, in the folder where the command runs. */
function mapsBeside(file: string): MapOf {
  return (name) => {
    try {
      return textOf(join(file === STANDARD_INPUT ? "." : dirname(file), name), MAP_LIMITS.text);
    } catch (error) {
      if (error instanceof Refusal) return { wrong: error.message };
      throw error;
    }
  };
}

/** `day.yaml:3:12: fields[0].area is ...` */
function placed(file: string, { line, column, detail }: Problem): string {
  return `${nameOf(file)}:${line ?? 1}:${column ?? 1}: ${detail}`;
}

/** The file as it is called in a sentence. */
export function nameOf(file: string): string {
  if (file === STANDARD_INPUT) return "standard input";
  return file === "" ? "without a name" : printable(file);
}

const STANDARD_INPUT = "-";

/** Standard input is read once. Throws `Refusal` where more of the files are to come from it. */
export function onePipedAtMost(...files: readonly (string | undefined)[]): void {
  const given = files.filter((file) => file !== undefined);
  if (given.filter((file) => file === STANDARD_INPUT).length > 1) throw new Refusal(`Only one of the ${given.length === 2 ? "two " : ""}files can come from standard input.`);
}

/** The text of a file, at most `most` bytes of UTF-8; `-` is standard input. Throws `Refusal`. */
export function textOf(file: string, most: number = LIMITS.text): string {
  const bytes = bytesOf(file, most);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new Refusal(`${nameOf(file)} is not a text file in UTF-8.`);
  }
}

/** Never holds more than the limit, whatever the file is: a device or a pipe has no size to ask for. */
function bytesOf(file: string, most: number): Uint8Array {
  if (file === STANDARD_INPUT && process.stdin.isTTY) throw new Refusal("Nothing is piped into standard input; name a file, or pipe one in.");
  let handle: number | undefined;
  try {
    handle = file === STANDARD_INPUT ? 0 : openSync(file, "r");
    const bytes = new Uint8Array(most + 1);
    for (let filled = 0; ;) {
      const read = readSync(handle, bytes, filled, bytes.length - filled, null);
      filled += read;
      if (filled > most) throw new Refusal(`${nameOf(file)} is too large; up to ${formatNumber(most, 0)} bytes would do.`);
      if (read === 0) return bytes.subarray(0, filled);
    }
  } catch (error) {
    throw error instanceof Refusal ? error : new Refusal(whyNot(file, error));
  } finally {
    if (handle !== undefined && handle > 0) closeSync(handle);
  }
}

/** Why a file could not be written, as the end of a sentence. */
export function whyUnwritten(error: unknown): string {
  switch ((error as NodeJS.ErrnoException).code) {
    case "ENOENT":
    case "ENOTDIR": return "there is no such folder";
    case "EISDIR": return "it is a folder; a file would do";
    case "EACCES":
    case "EPERM":
    case "EROFS": return "this account may not write there";
    case "ENOSPC": return "the disk is full";
    default: return error instanceof Error ? error.message : String(error);
  }
}

function whyNot(file: string, error: unknown): string {
  const name = nameOf(file);
  switch ((error as NodeJS.ErrnoException).code) {
    case "ENOENT": return `There is no file ${name}.`;
    case "ENOTDIR": return `There is no file ${name}: a part of the path is not a folder.`;
    case "EISDIR": return `${name} is a folder; a file would do.`;
    case "EACCES":
    case "EPERM": return `${name} may not be read by this account.`;
    case "ENAMETOOLONG": return "The name of the file is too long.";
    case "ERR_INVALID_ARG_VALUE": return "The name of the file holds a character that no name has.";
    default: return `${name} could not be read: ${error instanceof Error ? error.message : String(error)}.`;
  }
}
