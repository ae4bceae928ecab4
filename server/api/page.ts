/** The OpenAPI document as a page: nothing but text, tables and links, so that it needs no script and nothing from elsewhere. */
import type { OpenApi } from "./document.ts";

/** As much of JSON Schema as the document uses. */
interface Schema {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly additionalProperties?: boolean | Schema;
  readonly examples?: readonly unknown[];
}
interface Content { readonly [type: string]: { readonly schema?: Schema } }
interface Operation {
  readonly summary?: string;
  readonly description?: string;
  readonly parameters?: readonly { readonly name: string; readonly in: string; readonly required?: boolean; readonly description?: string; readonly schema?: Schema }[];
  readonly requestBody?: { readonly content: Content };
  readonly responses: Readonly<Record<string, { readonly description: string; readonly content?: Content; readonly headers?: Readonly<Record<string, unknown>> }>>;
}

const STYLE = `
  body { font: 1rem/1.5 "Atkinson Hyperlegible Next", sans-serif; color: #1F2421; background: #FAF8F2; max-width: 60rem; margin: 2rem auto; padding: 0 1rem }
  a { color: #1F4E79 } code, .path { font-family: "Atkinson Hyperlegible Mono", monospace; overflow-wrap: anywhere }
  h2 { margin-top: 3rem } h3 { margin: 2.5rem 0 .5rem } h4 { margin: 1rem 0 .25rem }
  table { border-collapse: collapse; width: 100% } th, td { text-align: left; vertical-align: top; padding: .25rem 1rem .25rem 0; border-bottom: 1px solid #8A938C } th { font-weight: 600 }
  .second { color: #55605A }`;

const escaped = (text: string): string => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll("\"", "&quot;");
const words = (text: string | undefined): string => escaped(text ?? "").replace(/`([^`]+)`/g, "<code>$1</code>");
const anchor = (text: string): string => text.replace(/[^\w]+/g, "-").replace(/^-|-$/g, "");
const rows = (cells: readonly (readonly string[])[]): string => cells.map((row) => `<tr>${row.map((cell) => `<td>${cell}</td>`).join("")}</tr>`).join("\n");
const table = (heads: readonly string[], cells: readonly (readonly string[])[]): string =>
  cells.length === 0 ? "" : `<table><thead><tr>${heads.map((head) => `<th scope="col">${head}</th>`).join("")}</tr></thead>\n<tbody>${rows(cells)}</tbody></table>`;

const nameIn = (ref: string): string => ref.slice(ref.lastIndexOf("/") + 1);

/** What a value is, in a few words; objects inside are told as rows of their own. */
function kindOf(schema: Schema): string {
  if (schema.$ref) return `<a href="#schema-${nameIn(schema.$ref)}">${nameIn(schema.$ref)}</a>`;
  if (schema.const !== undefined) return `<code>${escaped(JSON.stringify(schema.const))}</code>`;
  if (schema.enum) return schema.enum.map((value) => `<code>${escaped(JSON.stringify(value))}</code>`).join(", ");
  const either = schema.anyOf ?? schema.oneOf;
  if (either) return either.map(kindOf).join(" or ");
  if (schema.prefixItems) return `list of ${schema.prefixItems.map(kindOf).join(", ")}`;
  if (schema.items) return `list of ${kindOf(schema.items)}`;
  if (typeof schema.additionalProperties === "object") return `by name: ${kindOf(schema.additionalProperties)}`;
  return escaped([schema.type ?? "anything"].flat().join(" or "));
}

/** Every key of an object, and of the objects and lists of objects in it, with its place. */
function keysOf(schema: Schema, place = ""): string[][] {
  return Object.entries(schema.properties ?? {}).flatMap(([key, inside]) => {
    const here = place + key;
    const optional = schema.required?.includes(key) ? "" : " <span class=\"second\">may be absent</span>";
    const example = inside.examples?.length ? ` <span class="second">e.g. ${escaped(inside.examples.map(String).join(", "))}</span>` : "";
    const alternatives = [inside, ...(inside.anyOf ?? []), ...(inside.oneOf ?? [])];
    const below = alternatives.flatMap((each) => [...keysOf(each, `${here}.`), ...(each.items && !each.items.$ref ? keysOf(each.items, `${here}[].`) : [])]);
    return [[`<code>${escaped(here)}</code>${optional}`, kindOf(inside), words(inside.description) + example], ...below];
  });
}

const contents = (content: Content | undefined): string =>
  Object.entries(content ?? {}).map(([type, { schema }]) => `<code>${escaped(type)}</code>${schema && (schema.$ref || schema.properties) ? `: ${kindOf(schema)}` : ""}`).join("<br>");

function operation(method: string, path: string, { summary, description, parameters = [], requestBody, responses }: Operation): string {
  const given = parameters.map(({ name, in: where, required, description: what, schema }) =>
    [`<code>${escaped(name)}</code>`, where + (required ? "" : " <span class=\"second\">may be absent</span>"), schema ? kindOf(schema) : "", words(what ?? schema?.description)]);
  const replies = Object.entries(responses).map(([status, reply]) => [`<code>${status}</code>`, words(reply.description), contents(reply.content), Object.keys(reply.headers ?? {}).map((name) => `<code>${escaped(name)}</code>`).join(", ")]);
  return `<h3 id="${anchor(`${method} ${path}`)}"><span class="path">${method.toUpperCase()} ${escaped(path)}</span></h3>
<p>${words(summary)}${description ? `. ${words(description)}` : ""}</p>
${table(["Given", "Where", "Kind", "What"], given)}
${requestBody ? `<h4>Body</h4>\n<p>${contents(requestBody.content)}</p>` : ""}
<h4>Answers</h4>
${table(["Status", "When", "Holds", "Headers"], replies)}`;
}

/** The whole page. */
export function docsPage(api: OpenApi): string {
  const operations = Object.entries(api.paths ?? {}).flatMap(([path, methods]) => Object.entries(methods as Record<string, Operation>).map(([method, what]) => ({ path, method, what })));
  const schemas = Object.entries((api.components?.schemas ?? {}) as Record<string, Schema>);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>${escaped(api.info.title)}: the API</title>
<style>${STYLE}</style>
</head>
<body>
<h1>${escaped(api.info.title)}: the API</h1>
<p>${words(api.info.description)} Version ${escaped(api.info.version)}; for programs: <a href="openapi.json">openapi.json</a>.</p>
<h2>Routes</h2>
<ul>
${operations.map(({ path, method, what }) => `<li><a class="path" href="#${anchor(`${method} ${path}`)}">${method.toUpperCase()} ${escaped(path)}</a> ${words(what.summary)}</li>`).join("\n")}
</ul>
${operations.map(({ path, method, what }) => operation(method, path, what)).join("\n")}
<h2>Schemas</h2>
${schemas.map(([name, schema]) => `<h3 id="schema-${name}">${name}</h3>\n<p>${words(schema.description)}</p>\n${schema.properties ? table(["Key", "Kind", "What"], keysOf(schema)) : `<p>${kindOf(schema)}</p>`}`).join("\n")}
</body>
</html>
`;
}
