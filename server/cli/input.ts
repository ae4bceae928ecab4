/** Reads the files named on the command line. What cannot be read or used ends in `Unsound`: one sentence for each thing wrong, exit code 2. */
import { open } from "node:fs/promises";
import type { FileHandle } from "node:fs/promises";
import { LIMITS } from "../../sim/scenario/limits.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import type { AppliedDefault, Problem, Scenario } from "../../sim/scenario/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { printable } from "./terminal.ts";

/** Wrong use or unsound input: the sentences go to standard error, nothing goes to standard output. */
export class Unsound extends Error {
  readonly sentences: readonly string[];

  constructor(sentences: readonly string[]) {
    super(sentences.join("\n"));
    this.name = "Unsound";
    this.sentences = sentences;
  }
}

export interface ScenarioFile {
  readonly scenario: Scenario;
  readonly defaults: readonly AppliedDefault[];
}

/** Reads and checks one scenario file. Throws `Unsound`. */
export async function scenarioFrom(file: string): Promise<ScenarioFile> {
  const checked = readScenario(await textOf(file));
  if ("problems" in checked) throw new Unsound(checked.problems.map((problem) => placed(file, problem)));
  return checked;
}

/** `day.yaml:3:12: fields[0].area is ...` */
function placed(file: string, { line, column, detail }: Problem): string {
  return `${printable(file)}:${line ?? 1}:${column ?? 1}: ${detail}`;
}

/** The text of a file, at most `most` bytes of UTF-8. Throws `Unsound`. */
export async function textOf(file: string, most: number = LIMITS.text): Promise<string> {
  const bytes = await bytesOf(file, most);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new Unsound([`${printable(file)} is not a text file in UTF-8.`]);
  }
}

/** Never holds more than the limit, whatever the file is: a device or a pipe has no size to ask for. */
async function bytesOf(file: string, most: number): Promise<Uint8Array> {
  let handle: FileHandle | undefined;
  try {
    handle = await open(file, "r");
    const bytes = new Uint8Array(most + 1);
    let filled = 0;
    for (;;) {
      const { bytesRead } = await handle.read(bytes, filled, bytes.length - filled);
      filled += bytesRead;
      if (filled > most) throw new Unsound([`${printable(file)} is too large; up to ${formatNumber(most, 0)} bytes would do.`]);
      if (bytesRead === 0) return bytes.subarray(0, filled);
    }
  } catch (error) {
    throw error instanceof Unsound ? error : new Unsound([whyNot(file, error)]);
  } finally {
    await handle?.close();
  }
}

function whyNot(file: string, error: unknown): string {
  const name = file === "" ? "without a name" : printable(file);
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
