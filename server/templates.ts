/** The worked examples of the project's `scenarios/` folder, to begin from. Read once at the start. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { readDocument } from "../sim/scenario/document.ts";
import { checkScenario } from "../sim/scenario/read.ts";
import type { Problem } from "../sim/scenario/types.ts";
import { asForm } from "./forms.ts";
import type { Document } from "./documents.ts";

export interface Template {
  /** the file's name without its ending */ readonly id: string;
  readonly name: string;
  /** what the example shows: the first paragraph of the comment at its head */ readonly shows: string;
  readonly text: string;
  readonly yaml: Document;
  readonly json: Document;
}

/** The comment at the head of a file up to its first gap, as running text. */
export function headComment(text: string): string {
  const lines = text.split("\n");
  const end = lines.findIndex((line) => !/^#\s*\S/.test(line));
  return lines.slice(0, end === -1 ? lines.length : end).map((line) => line.replace(/^#\s*/, "").trim()).join(" ");
}

/** Days, campaigns of several days, and days whose weigh tickets ship too. */
const ROOMS = ["", "campaign", "tickets"];

/** Reads and checks every scenario of the folder, by name. Throws when one is unsound: the project's own examples must hold. */
export function readTemplates(folder: string): Template[] {
  const files = ROOMS.filter((room) => existsSync(join(folder, room)))
    .flatMap((room) => readdirSync(join(folder, room)).filter((file) => file.endsWith(".yaml")).map((file) => join(room, file)));
  return files.sort((a, b) => (basename(a) < basename(b) ? -1 : 1)).map((file) => templateOf(file, readFileSync(join(folder, file), "utf8")));
}

function templateOf(file: string, text: string): Template {
  const unsound = (problem: Problem | undefined) => new Error(`${file} is not a sound scenario: ${problem?.detail}`);
  const read = readDocument(text);
  if ("problem" in read) throw unsound(read.problem);
  const checked = checkScenario(read.value);
  if ("problems" in checked) throw unsound(checked.problems[0]);
  return {
    id: basename(file, ".yaml"),
    name: checked.scenario.name,
    shows: headComment(text),
    text,
    yaml: asForm({ form: "yaml", text }, "yaml"),
    json: asForm({ form: "yaml", text }, "json"),
  };
}
