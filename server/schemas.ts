/** `/api/v1/schemas/scenario`: the JSON Schema of a scenario, made from the same code that checks it. */
import type { Express } from "express";
import { scenarioSchemaText } from "../sim/scenario/schema.ts";
import { document, send } from "./documents.ts";
import { resource } from "./resource.ts";

export function putSchemas(app: Express): void {
  const schema = document(scenarioSchemaText(), "application/schema+json");
  resource(app, "/api/v1/schemas/scenario", { GET: (request, response) => send(request, response, schema) });
}
