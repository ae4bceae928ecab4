/** The OpenAPI 3.1 document, generated from the routes and from the schemas that check and type what goes in and out. */
import { OpenAPIRegistry, OpenApiGeneratorV31 } from "@asteasolutions/zod-to-openapi";
import { z } from "zod";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { ROUTES } from "./routes.ts";
import type { Reply, Route } from "./routes.ts";

export type OpenApi = ReturnType<OpenApiGeneratorV31["generateDocument"]>;

const INTRODUCTION = "Rehearses a silage harvest day: scenarios go in, findings and a day log come out. "
  + "Every address answers HEAD as GET without a body, OPTIONS with the methods it knows, and another method with 405 and Allow. What is refused is told as RFC 9457. "
  + "Documents carry a strong ETag and are not sent again to whoever names it. Bodies are UTF-8, not compressed.";

const described = (words: string) => z.string().meta({ description: words });
const headersOf = (headers: Readonly<Record<string, string>>) => Object.fromEntries(Object.entries(headers).map(([name, words]) => [name, { description: words, schema: { type: "string" as const } }]));
const contentOf = (content: Readonly<Record<string, z.ZodType>>) => Object.fromEntries(Object.entries(content).map(([type, schema]) => [type, { schema }]));

const replyOf = ({ description, content, headers }: Reply) =>
  ({ description, ...(content ? { content: contentOf(content) } : {}), ...(headers ? { headers: headersOf(headers) } : {}) });

function pathOf({ method, path, summary, description, params, query, headers, body, replies }: Route) {
  return {
    method, path, summary, ...(description ? { description } : {}),
    request: {
      ...(params ? { params: z.object(params) } : {}),
      ...(query ? { query: z.object(query) } : {}),
      ...(headers ? { headers: z.object(Object.fromEntries(Object.entries(headers).map(([name, words]) => [name, described(words).optional()]))) } : {}),
      ...(body ? { body: { content: contentOf(body), required: true } } : {}),
    },
    responses: Object.fromEntries(Object.entries(replies).map(([status, reply]) => [status, replyOf(reply)])),
  };
}

/** The document for a server as it stands. */
export function openApi(): OpenApi {
  const registry = new OpenAPIRegistry();
  registry.registerComponent("securitySchemes", "token", { type: "http", scheme: "bearer", description: "Shown once when the server starts; only where it listens for other machines." });
  for (const route of ROUTES) registry.registerPath(pathOf(route));
  return new OpenApiGeneratorV31(registry.definitions).generateDocument({
    openapi: "3.1.0",
    info: { title: "Clampside", version: ENGINE_VERSION, description: INTRODUCTION, license: { name: "MIT", identifier: "MIT" } },
    servers: [{ url: "/" }],
    security: [{}, { token: [] }],
  });
}
