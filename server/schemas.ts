/** What describes the API: the JSON Schema of a scenario, the OpenAPI document and its page, all made from the same code that checks and answers. */
import type { Express, RequestHandler } from "express";
import { scenarioSchemaText } from "../sim/scenario/schema.ts";
import { openApi } from "./api/document.ts";
import { docsPage } from "./api/page.ts";
import { document, jsonDocument, send } from "./documents.ts";
import type { Document } from "./documents.ts";
import { resource } from "./resource.ts";

/** Made when first asked for: most who start the server never do. */
function once(make: () => Document): RequestHandler {
  let made: Document | undefined;
  return (request, response) => send(request, response, made ??= make());
}

export function putSchemas(app: Express): void {
  resource(app, "/api/v1/schemas/scenario", { GET: once(() => document(scenarioSchemaText(), "application/schema+json")) });
  resource(app, "/api/v1/openapi.json", { GET: once(() => jsonDocument(openApi())) });
  resource(app, "/api/v1/docs", { GET: once(() => document(docsPage(openApi()), "text/html; charset=utf-8")) });
}
