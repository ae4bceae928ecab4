/** The two forms a scenario is written in, each as a document, and one turned into the other. */
import { stringify } from "yaml";
import { readDocument } from "../sim/scenario/document.ts";
import type { Request } from "express";
import { digest } from "./documents.ts";
import type { Document } from "./documents.ts";
import { refusals } from "./problems.ts";
import type { Form } from "./store/scenarios.ts";

export const YAML_TYPES = ["application/yaml", "text/yaml", "application/x-yaml"];
const OFFERED = ["application/json", "application/yaml", "text/yaml"];
const TYPES: Readonly<Record<Form, string>> = { json: "application/json", yaml: "application/yaml; charset=utf-8" };

export interface WrittenText { readonly form: Form; readonly text: string }

/** The form that a request would rather have. Throws a `Refusal` when it takes neither. */
export function formFor(request: Request): Form {
  const type = request.accepts(OFFERED);
  if (type === false) throw refusals.noSuchForm(OFFERED);
  return type === "application/json" ? "json" : "yaml";
}

/** The text in the wanted form: in its own to the letter, else written anew. Its tag names the revision, 0 where there are none, and the bytes. */
export function asForm({ form, text }: WrittenText, wanted: Form, revision = 0): Document {
  const written = form === wanted ? text : rewritten(text, wanted);
  const bytes = Buffer.from(written);
  return { bytes, type: TYPES[wanted], tag: `"${revision}-${digest(bytes)}"` };
}

function rewritten(text: string, wanted: Form): string {
  if (wanted === "yaml") return stringify(JSON.parse(text));
  const read = readDocument(text);
  if ("problem" in read) throw new Error(`A kept scenario cannot be read any more: ${read.problem.detail}`);
  return JSON.stringify(read.value);
}
