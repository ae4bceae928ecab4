/** `/api/v1/scenarios`: the worked examples of the project's `scenarios/` folder, to begin from. Read once at the start. */
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import type { Express, Request, Response } from "express";
import { readDocument } from "../sim/scenario/document.ts";
import { checkScenario } from "../sim/scenario/read.ts";
import type { Problem } from "../sim/scenario/types.ts";
import { document, jsonDocument, send } from "./documents.ts";
import type { Document } from "./documents.ts";
import { refusals } from "./problems.ts";
import { resource } from "./resource.ts";

export interface Template {
  /** the file's name without its ending */ readonly id: string;
  readonly name: string;
  /** what the example shows: the first paragraph of the comment at its head */ readonly shows: string;
  readonly text: string;
  readonly yaml: Document;
  readonly json: Document;
}

const YAML_FORMS = ["application/yaml", "text/yaml"];
const FORMS = ["application/json", ...YAML_FORMS];

/** The comment at the head of a file up to its first gap, as running text. */
export function headComment(text: string): string {
  const lines = text.split("\n");
  const end = lines.findIndex((line) => !/^#\s*\S/.test(line));
  return lines.slice(0, end === -1 ? lines.length : end).map((line) => line.replace(/^#\s*/, "").trim()).join(" ");
}

/** Reads and checks every `*.yaml` of the folder. Throws when one is unsound: the project's own examples must hold. */
export function readTemplates(folder: string): Template[] {
  return readdirSync(folder).filter((file) => file.endsWith(".yaml")).sort().map((file) => templateOf(file, readFileSync(join(folder, file), "utf8")));
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
    yaml: document(text, "application/yaml; charset=utf-8"),
    json: jsonDocument(read.value),
  };
}

export function putScenarios(app: Express, templates: readonly Template[]): void {
  const list = jsonDocument({ scenarios: templates.map(({ id, name, shows }) => ({ id, name, shows })) });
  const byId = new Map(templates.map((template) => [template.id, template]));

  resource(app, "/api/v1/scenarios", { GET: (request, response) => send(request, response, list) });
  resource(app, "/api/v1/scenarios/:id", {
    GET: (request: Request, response: Response) => {
      const template = byId.get(String(request.params.id));
      if (template === undefined) throw refusals.noSuchThing("scenario of that name");
      response.vary("Accept");
      const form = request.accepts(FORMS);
      if (form === false) throw refusals.noSuchForm(FORMS);
      send(request, response, form === "application/json" ? template.json : template.yaml);
    },
  });
}
