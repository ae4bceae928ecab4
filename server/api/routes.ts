/** Every route of the server, with what it takes and what it may answer: the one list that the OpenAPI document and its page are made of. */
import { z } from "zod";
import { ARCHIVE } from "../archive.ts";
import { ARCHIVE_TYPE } from "../store/archive.ts";
import { SCENARIOS } from "../scenarios.ts";
import { REHEARSALS } from "../rehearsals.ts";
import { ENTER } from "../door.ts";
import { STUDIES } from "../studies/desk.ts";
import { study, studyAsked } from "./studies.ts";
import { problem, rehearsalAnswer, rehearsalAsked, revisionList, scenario, scenarioId, scenarioList, stamp, taken, wishes } from "./schemas.ts";

export type Method = "get" | "post" | "put" | "delete";

export interface Reply {
  readonly description: string;
  /** media type -> what it holds; nothing: no body */ readonly content?: Readonly<Record<string, z.ZodType>>;
  readonly headers?: Readonly<Record<string, string>>;
}

export interface Route {
  readonly method: Method;
  /** as in OpenAPI: `{id}` stands for a part of the address */ readonly path: string;
  readonly summary: string;
  readonly description?: string;
  /** parts of the address, by name */ readonly params?: Readonly<Record<string, z.ZodType>>;
  readonly query?: Readonly<Record<string, z.ZodType>>;
  /** headers of the request, by name */ readonly headers?: Readonly<Record<string, string>>;
  readonly body?: Readonly<Record<string, z.ZodType>>;
  readonly replies: Readonly<Record<number, Reply>>;
}

const ETAG = { ETag: "Strong: the same for the same bytes, and for no others." };
const text = (description: string) => z.string().meta({ description });
const json = (schema: z.ZodType) => ({ "application/json": schema });

/** Why each refusal is given, for the routes that name it. */
const REFUSALS: Readonly<Record<number, string>> = {
  400: "The request or its body cannot be read.", 401: "A token is wanted: `Authorization: Bearer`, or the cookie that /enter gives. Only where the server listens for other machines.",
  403: "Sent by a page of another origin.", 404: "There is no such thing.", 406: "It can be had in none of the forms that are accepted.", 409: "It may not be changed, or there are too many.",
  412: "Not what If-Match or If-None-Match says.", 413: "The body is too large.", 415: "The body is of a type or an encoding that is not taken.", 421: "Asked under a name that is not the server's.",
  422: "Unsound, or more work than is done at once; `errors` says where.", 428: "If-Match is missing.", 429: "Too many requests; Retry-After says how long to wait.", 500: "The server's own fault.",
  503: "Not now: too many wait, the server is starting or ending, or the data folder cannot be used.", 504: "Stopped: it took too long.", 507: "No room left in the data folder.",
};
const HEADERS: Readonly<Record<number, Readonly<Record<string, string>>>> = {
  401: { "WWW-Authenticate": "Bearer" }, 429: { "Retry-After": "s to wait." }, 503: { "Retry-After": "s to wait." },
};

/** Refusals as replies: those named, and those that stand before every route. */
function refused(...statuses: readonly number[]): Record<number, Reply> {
  const reply = (status: number): Reply => ({ description: REFUSALS[status]!, content: { "application/problem+json": problem }, ...(HEADERS[status] ? { headers: HEADERS[status] } : {}) });
  return Object.fromEntries([...statuses, 403, 421, 500].map((status) => [status, reply(status)]));
}

/** The same for what stands behind the door, and asks for a token where there is one. */
const refusedInside = (...statuses: readonly number[]) => {
  const replies = refused(401, ...statuses);
  return { ...replies, 401: { ...replies[401]!, content: { ...replies[401]!.content, "text/html": text("A page that asks for the token.") } } };
};
const refusedByApi = (...statuses: readonly number[]) => refusedInside(429, ...statuses);

const NOT_MODIFIED: Record<number, Reply> = { 304: { description: "The client has these bytes: If-None-Match names their ETag.", headers: ETAG } };
const IF_NONE_MATCH = { "If-None-Match": "ETags the client has." };
const IF_MATCH = { "If-Match": "The ETag that was read, in either form; what was changed since then is not written over." };

const scenarioForms = { "application/json": scenario, "application/yaml": text("The scenario as the text of a file.") };
const scenarioBodies = { ...scenarioForms, "text/yaml": text("The same."), "application/x-yaml": text("The same.") };
const id = text("Id of the rehearsal.");
const studyId = text("Id of the study.");

/** A document that has one address and one tag. */
const found = (description: string, content: Record<string, z.ZodType>, headers: Record<string, string> = {}): Record<number, Reply> =>
  ({ 200: { description, content, headers: { ...ETAG, ...headers } }, ...NOT_MODIFIED });

/** `refused`: with what, besides 404 */
const table = (name: string, what: string, ...refused: (503 | 504)[]): Route => ({
  method: "get", path: `${REHEARSALS}/{id}/${name}.csv`, summary: `${what} as a table for spreadsheets`, params: { id }, headers: IF_NONE_MATCH,
  description: "RFC 4180, UTF-8. A name that a spreadsheet would take for a formula has an apostrophe in front.",
  replies: { ...found("The table.", { "text/csv": text("Heads, then rows.") }, { "Content-Disposition": "A name to save it under." }), ...refusedByApi(404, ...refused) },
});

export const ROUTES: readonly Route[] = [
  { method: "get", path: "/livez", summary: "Is the server alive?", replies: { 200: { description: "Yes.", content: json(z.strictObject({ alive: z.literal(true) })) }, ...refused() } },
  {
    method: "get", path: "/readyz", summary: "May work be sent?", description: "Once every thread has a first rehearsal behind it, until the server is told to end.",
    replies: { 200: { description: "Yes.", content: json(z.strictObject({ ready: z.literal(true) })) }, ...refused(503) },
  },
  {
    method: "get", path: "/", summary: "The page",
    replies: { ...found("The page.", { "text/html": text("The page.") }), 404: { description: "It has not been built.", content: { "text/plain": text("How to build it.") } }, ...refusedInside() },
  },
  {
    method: "get", path: ENTER, summary: "The door", description: "Only where the server listens for other machines.", query: { token: text("The token that the server showed when it was started.").optional() },
    replies: {
      200: { description: "A page that asks for the token.", content: { "text/html": text("The page.") } }, 303: { description: "Come in.", headers: { "Set-Cookie": "Lets this browser in from now on.", Location: "/" } },
      ...refusedInside(429),
    },
  },
  {
    method: "post", path: ENTER, summary: "Show the token", description: "Only where the server listens for other machines.",
    body: { "application/x-www-form-urlencoded": z.object({ token: z.string() }) },
    replies: { 303: { description: "Come in.", headers: { "Set-Cookie": "Lets this browser in from now on.", Location: "/" } }, ...refusedInside(400, 413, 415, 429) },
  },
  {
    method: "get", path: "/api/v1/openapi.json", summary: "This description", headers: IF_NONE_MATCH,
    replies: { ...found("OpenAPI 3.1.", json(z.object({ openapi: z.string() }))), ...refusedByApi() },
  },
  { method: "get", path: "/api/v1/docs", summary: "This description as a page", headers: IF_NONE_MATCH, replies: { ...found("The page.", { "text/html": text("The page.") }), ...refusedByApi() } },
  {
    method: "get", path: "/api/v1/schemas/scenario", summary: "JSON Schema of a scenario", headers: IF_NONE_MATCH,
    replies: { ...found("JSON Schema, draft 2020-12.", { "application/schema+json": z.object({}) }), ...refusedByApi() },
  },
  {
    method: "get", path: SCENARIOS, summary: "Worked examples, and the scenarios that are kept", headers: IF_NONE_MATCH,
    replies: { ...found("Both lists.", json(scenarioList)), ...refusedByApi(503) },
  },
  {
    method: "get", path: `${SCENARIOS}/{id}`, summary: "One scenario", params: { id: scenarioId }, headers: { Accept: "application/json or application/yaml.", ...IF_NONE_MATCH },
    description: "In the form it was saved in to the letter, in the other written anew.",
    replies: { ...found("The scenario.", { ...scenarioForms }, { Vary: "Accept" }), ...refusedByApi(400, 404, 406, 503) },
  },
  {
    method: "put", path: `${SCENARIOS}/{id}`, summary: "Save a scenario", params: { id: scenarioId }, headers: { ...IF_MATCH, "If-None-Match": "`*`: only if none is kept under this name." },
    description: "Kept to the letter as the next revision; when the answer comes, it is on the disk. A scenario that is kept already is changed only with If-Match. Sent again unchanged, it makes no revision.",
    body: scenarioBodies,
    replies: {
      200: { description: "Saved as the next revision, or unchanged.", content: json(stamp), headers: ETAG },
      201: { description: "Saved as a new scenario.", content: json(stamp), headers: { ...ETAG, Location: "Its address." } },
      ...refusedByApi(400, 409, 412, 413, 415, 422, 428, 503, 507),
    },
  },
  {
    method: "delete", path: `${SCENARIOS}/{id}`, summary: "Take a scenario away", params: { id: scenarioId }, headers: IF_MATCH, description: "Its revisions stay.",
    replies: { 204: { description: "It is away." }, ...refusedByApi(400, 404, 409, 412, 428, 503, 507) },
  },
  {
    method: "get", path: `${SCENARIOS}/{id}/revisions`, summary: "Every revision of a scenario", params: { id: scenarioId }, headers: IF_NONE_MATCH,
    replies: { ...found("The list.", json(revisionList)), ...refusedByApi(400, 404, 503) },
  },
  {
    method: "get", path: `${SCENARIOS}/{id}/revisions/{revision}`, summary: "A scenario as it was", params: { id: scenarioId, revision: z.int().min(1) },
    headers: { Accept: "application/json or application/yaml.", ...IF_NONE_MATCH },
    replies: { ...found("The scenario.", { ...scenarioForms }, { Vary: "Accept" }), ...refusedByApi(400, 404, 406, 503) },
  },
  {
    method: "post", path: REHEARSALS, summary: "Rehearse a scenario", query: { rehearsals: wishes.rehearsals, seed: wishes.seed },
    description: "Answered at once. A body of YAML is the text of a scenario file; its wishes stand in the query.",
    body: { ...scenarioBodies, "application/json": rehearsalAsked },
    replies: { ...found("The findings.", json(rehearsalAnswer), { Location: "Address of the rehearsal." }), ...refusedByApi(400, 413, 415, 422, 503, 504) },
  },
  {
    method: "get", path: `${REHEARSALS}/{id}`, summary: "The findings of a rehearsal", params: { id }, headers: IF_NONE_MATCH,
    replies: { ...found("The same bytes each time.", json(rehearsalAnswer)), ...refusedByApi(400, 404) },
  },
  {
    method: "get", path: `${REHEARSALS}/{id}/log`, summary: "The log of the day that is shown", params: { id }, headers: IF_NONE_MATCH,
    description: "JSON lines: a header, then trips, lifts, machines, events and state changes of the rehearsal with the median finish. It is rehearsed again for this.",
    replies: { ...found("The log.", { "application/x-ndjson": text("A JSON document a line.") }), ...refusedByApi(400, 404, 503, 504) },
  },
  {
    method: "post", path: STUDIES, summary: "Ask a study", body: json(studyAsked),
    description: "A question that takes a while: it is carried out in its turn, and kept when it is done. The same question has the same id and is carried out once.",
    replies: {
      200: { description: "It is done already.", content: json(study), headers: { ...ETAG, Location: "Its address." } },
      202: { description: "It is taken on.", content: json(study), headers: { ...ETAG, Location: "Its address." } },
      ...refusedByApi(400, 413, 415, 422, 503),
    },
  },
  {
    method: "get", path: `${STUDIES}/{id}`, summary: "A study as it is", params: { id: studyId }, headers: IF_NONE_MATCH, description: "Done: the same bytes each time.",
    replies: { ...found("The study.", json(study)), ...refusedByApi(400, 404) },
  },
  {
    method: "delete", path: `${STUDIES}/{id}`, summary: "Cancel a study, or forget one that is over", params: { id: studyId },
    replies: { 204: { description: "So it is." }, ...refusedByApi(400, 404, 503, 507) },
  },
  {
    method: "get", path: `${STUDIES}/{id}/events`, summary: "What happens to a study, as it happens", params: { id: studyId }, headers: { "Last-Event-ID": "The event heard last: what came since is told first." },
    description: "Server-sent events: `state`, `progress` (days done and expected), `so-far` (what can be shown already), and last one of `done`, `failed` and `cancelled`, whose id is `end`.",
    replies: {
      200: { description: "Events until the study is over.", content: { "text/event-stream": text("Events.") } }, 204: { description: "The end was heard already." }, ...refusedByApi(400, 404, 503),
    },
  },
  {
    method: "get", path: ARCHIVE, summary: "All that is kept, as one file",
    description: "JSON lines: a head, every revision of every scenario, the answers, and a last line that says how many lines they are and what they hash to (SHA-256). As of the moment it is asked for.",
    replies: { 200: { description: "The archive.", content: { [ARCHIVE_TYPE]: text("A JSON document a line.") }, headers: { "Content-Disposition": "A name to save it under." } }, ...refusedByApi(503) },
  },
  {
    method: "post", path: ARCHIVE, summary: "Take an archive on", body: { [ARCHIVE_TYPE]: text("An archive.") },
    description: "All of it, beside what is here, or nothing: one that was cut or altered is not taken. Nothing here is changed or lost: a scenario with the same history stays, a longer one is gone on with, "
      + "another one under the same name gets a new name. What the answers in it say is believed: take on files of your own only.",
    replies: { 200: { description: "It is taken on.", content: json(taken) }, ...refusedByApi(400, 413, 415, 422, 503, 507) },
  },
  table("measures", "Its measures"), table("trips", "The loads of the day that is shown", 503, 504), table("lifts", "The lifts of the day that is shown", 503, 504),
];
