/** Looks at every answer of an app under test and holds it against the OpenAPI document: what the document does not say may not be answered. */
import type { IncomingMessage, RequestListener, ServerResponse } from "node:http";
import { Ajv2020 } from "ajv/dist/2020.js";
import type { ValidateFunction } from "ajv/dist/2020.js";
import { openApi } from "../../server/api/document.ts";

interface Reply { readonly content?: Record<string, unknown>; readonly headers?: Record<string, unknown> }
type Paths = Record<string, Record<string, { readonly responses: Record<string, Reply> }>>;

const api = openApi();
const paths = api.paths as unknown as Paths;
const ajv = new Ajv2020({ strict: false, validateFormats: false, allErrors: true });
ajv.addSchema(api, "api");

/** Addresses with a part that varies, the fixed ones first. */
const patterns = Object.keys(paths).sort((a, b) => a.split("{").length - b.split("{").length)
  .map((path) => ({ path, pattern: new RegExp(`^${path.replace(/[.]/g, "\\.").replace(/\{\w+\}/g, "[^/]+")}$`) }));

const validators = new Map<string, ValidateFunction>();
function validatorOf(...place: string[]): ValidateFunction {
  const pointer = place.map((part) => encodeURIComponent(part.replaceAll("~", "~0").replaceAll("/", "~1"))).join("/");
  let validate = validators.get(pointer);
  if (!validate) validators.set(pointer, validate = ajv.compile({ $ref: `api#/${pointer}` }));
  return validate;
}

const isProblem = validatorOf("components", "schemas", "Problem");

/** What an answer has that the document does not say; null when all is as described. */
export function contradiction(method: string, path: string, status: number, headers: Record<string, unknown>, body: string): string | null {
  const type = String(headers["content-type"] ?? "").split(";")[0]!.trim();
  const found = patterns.find(({ pattern }) => pattern.test(path));
  const verb = method === "HEAD" ? "get" : method.toLowerCase();
  const operation = found && paths[found.path]![verb];
  const asProblem = () => {
    if (type !== "application/problem+json") return `a problem should have been told, not ${type}`;
    if (method === "HEAD") return null;
    const told = JSON.parse(body) as { status: number };
    return !isProblem(told) ? ajv.errorsText(isProblem.errors) : told.status === status ? null : `the problem says ${told.status}`;
  };
  if (operation === undefined) {
    if (method === "OPTIONS" && status === 204) return found ? null : "OPTIONS is answered at an address that is not described";
    // The page's own files are not part of the API.
    if (!found && !path.startsWith("/api") && [200, 304].includes(status)) return null;
    if (status === 401 && type === "text/html") return null;
    if (status < 400) return "it is answered and not described";
    if (status === 405 && !headers.allow) return "405 comes without Allow";
    return asProblem();
  }
  const reply = operation.responses[String(status)];
  if (reply === undefined) return `${status} is not described`;
  for (const name of Object.keys(reply.headers ?? {})) {
    if (headers[name.toLowerCase()] === undefined) return `${status} comes without ${name}`;
  }
  // What an app would send after a HEAD goes no further than the connection.
  if (method === "HEAD") return null;
  if (reply.content === undefined) return body === "" ? null : `${status} should have no body`;
  if (!(type in reply.content)) return `${status} comes as ${type}`;
  if (type === "application/problem+json") return asProblem();
  if (type !== "application/json") return null;
  const validate = validatorOf("paths", found!.path, verb, "responses", String(status), "content", type, "schema");
  return validate(JSON.parse(body)) ? null : ajv.errorsText(validate.errors);
}

/** The same app, with its answers looked at; contradictions are told by `complaints`. */
export function witnessed(app: RequestListener): { readonly app: RequestListener; readonly complaints: string[] } {
  const complaints: string[] = [];
  const listener = (request: IncomingMessage, response: ServerResponse) => {
    const { method = "", url = "" } = request;
    const parts: Buffer[] = [];
    const keep = (part: unknown) => { if (typeof part === "string" || part instanceof Uint8Array) parts.push(Buffer.from(part as string)); };
    const { write, end } = response;
    response.write = ((part: unknown, ...rest: unknown[]) => { keep(part); return (write as (...all: unknown[]) => boolean).call(response, part, ...rest); }) as typeof write;
    response.end = ((part: unknown, ...rest: unknown[]) => { keep(part); return (end as (...all: unknown[]) => ServerResponse).call(response, part, ...rest); }) as typeof end;
    response.on("finish", () => {
      const path = url.split("?")[0]!;
      const wrong = contradiction(method, path, response.statusCode, response.getHeaders(), Buffer.concat(parts).toString());
      if (wrong !== null) complaints.push(`${method} ${path} -> ${response.statusCode}: ${wrong}`);
    });
    app(request, response);
  };
  return { app: listener, complaints };
}
