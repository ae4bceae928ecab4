/** `/api/v1/schemas/scenario`: the JSON Schema of a scenario, made from the same code that checks it. */
import { readFileSync } from "node:fs";
import type { Express } from "express";
import { document, send } from "./documents.ts";
import type { Document } from "./documents.ts";
import { resource } from "./resource.ts";

/** The schema as it was generated. Throws when the file is not there. */
export const readSchema = (file: string): Document => document(readFileSync(file), "application/schema+json");

export function putSchemas(app: Express, schema: Document): void {
  resource(app, "/api/v1/schemas/scenario", { GET: (_request, response) => send(response, schema) });
}
