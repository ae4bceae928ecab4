/** What is wrong with a request, told as RFC 9457 `application/problem+json`. Every refusal of the server is made here. */
import { STATUS_CODES } from "node:http";
import type { ErrorRequestHandler, Response } from "express";
import { counted } from "../sim/findings/figure.ts";
import { listed } from "../sim/scenario/words.ts";
import { StoreTrouble } from "./store/trouble.ts";

/** One place in the request and what would be right there. */
export interface ProblemPlace {
  /** JSON pointer (RFC 6901) into the request's body */ readonly pointer: string;
  /** one sentence */ readonly detail: string;
  readonly line?: number;
  readonly column?: number;
}

/** A request that is refused: thrown anywhere below a route, answered once by `answerProblems`. */
export class Refusal extends Error {
  constructor(
    readonly status: number,
    /** one or two sentences for the person at the other end */ readonly detail: string,
    readonly more: { readonly errors?: readonly ProblemPlace[]; readonly headers?: Readonly<Record<string, string>> } = {},
  ) {
    super(detail);
    this.name = "Refusal";
  }
}

/** Why a run ends when nobody waits for it any more; there is nobody to tell, and nothing to report. */
export class ClientGone extends Error {}

/** What a body is to be, by what is done with it. */
export const WANTED = {
  rehearsal: "Send the scenario as application/json, {\"scenario\": ...}, or the file's own text as application/yaml.",
  scenario: "Send the scenario itself as application/json, or the file's own text as application/yaml.",
  study: "Send the question as application/json, {\"kind\": ...}.",
} as const;

/** The refusals, in one object so that their wording can be read and compared in one place. */
export const refusals = {
  brokenJson: (why: string) => new Refusal(400, `The body is not JSON: ${why}.`),
  brokenYaml: (errors: readonly ProblemPlace[]) => new Refusal(400, "The body is not YAML.", { errors }),
  emptyBody: (wanted: string) => new Refusal(400, `The body is empty. ${wanted}`),
  brokenText: () => new Refusal(400, "The body is not text in UTF-8."),
  strangeId: (most: number) => new Refusal(400, `A scenario is kept under a name of small letters and digits, with single hyphens between them, up to ${most} characters long.`),
  tooDeep: (depth: number) => new Refusal(400, `The body goes deeper than ${depth} objects and lists inside one another.`),
  brokenRequest: () => new Refusal(400, "The request cannot be read."),
  noToken: () => new Refusal(401, "This server wants the token that it showed when it was started: as Authorization: Bearer, or once at /enter.", { headers: { "WWW-Authenticate": "Bearer" } }),
  strangeOrigin: () => new Refusal(403, "This server answers pages of its own only."),
  noSuchThing: (what: string) => new Refusal(404, `There is no ${what} here.`),
  noSuchRehearsal: () =>
    new Refusal(404, "No rehearsal of that id is kept here, or not any more. Post its scenario again: the answer will be the same, under the same id."),
  noSuchDay: () => new Refusal(404, "The day of this rehearsal cannot be told any more: the engine that rehearsed it was another one. Post its scenario again."),
  noSuchStudy: () => new Refusal(404, "No study of that id is known here, or not any more. Post its question again: the answer will be the same, under the same id."),
  notThatMethod: (method: string, allowed: string) =>
    new Refusal(405, `${method} is not for this address; ${allowed} would do.`, { headers: { Allow: allowed } }),
  noSuchForm: (forms: readonly string[]) => new Refusal(406, `This can be had as ${listed(forms)}.`),
  isExample: () => new Refusal(409, "This is one of the worked examples, which stay as they are. Keep yours under another name."),
  keptMost: (what: string) => new Refusal(409, `No more ${what} are kept here. Nothing was changed; a new data folder has room.`),
  changedMeanwhile: (tag: string | null) => new Refusal(412, tag === null
    ? "No scenario is kept under this name, or not any more, so it cannot be the one that was read."
    : "The scenario was changed since it was read. Read it again; the revision in between is kept.", tag === null ? {} : { headers: { ETag: tag } }),
  isThereAlready: (tag: string) => new Refusal(412, "A scenario is kept under this name already.", { headers: { ETag: tag } }),
  tooLarge: (bytes: number) => new Refusal(413, `The body is larger than ${counted(bytes)} bytes.`),
  wrongType: (wanted: string, types = "application/json, application/yaml") => new Refusal(415, wanted, { headers: { "Accept-Post": types } }),
  wrongEncoding: () => new Refusal(415, "Send the body as plain UTF-8, not compressed."),
  strangeHost: () => new Refusal(421, "This server answers under its own names only: 127.0.0.1, localhost, [::1], and those of the address it was told to listen on."),
  unsound: (errors: readonly ProblemPlace[], most: number) =>
    new Refusal(422, errors.length === 1 ? "One thing is wrong with the request." : `${errors.length} things are wrong with the request.`, { errors: errors.slice(0, most) }),
  noArchive: (because: string) => new Refusal(422, `${because} Nothing of it was taken.`),
  noAnswer: (because: string) => new Refusal(422, because),
  readFirst: (tag: string) => new Refusal(428, "Only whoever has read what is kept may change it or take it away: send its ETag as If-Match, so that nobody's change is lost.", { headers: { ETag: tag } }),
  tooMany: (perMinute: number, seconds: number) =>
    new Refusal(429, `More than ${counted(perMinute)} requests a minute came from here. Wait a little.`, { headers: { "Retry-After": String(seconds) } }),
  tooManyWrong: (seconds: number) => new Refusal(429, "Too many wrong tokens came from here. Wait a little.", { headers: { "Retry-After": String(seconds) } }),
  failed: () => new Refusal(500, "Something went wrong inside the server. The request was sound as far as it was read; the server's own log tells more."),
  busy: () => new Refusal(503, "Too many rehearsals are waiting already. Try again in a moment.", { headers: { "Retry-After": "1" } }),
  busyWithStudies: () => new Refusal(503, "Too many studies are waiting already. Try again when one is done.", { headers: { "Retry-After": "10" } }),
  busyWithArchive: () => new Refusal(503, "Another archive is on its way, out or in. Try again when it is done.", { headers: { "Retry-After": "10" } }),
  tooManyListeners: () => new Refusal(503, "Too many listen to studies already. Ask for the study itself now and then.", { headers: { "Retry-After": "10" } }),
  ending: () => new Refusal(503, "The server is ending; ask again when it is back.", { headers: { "Retry-After": "5" } }),
  closing: () => new Refusal(503, "The server is not ready.", { headers: { "Retry-After": "1" } }),
  /** Somebody has to see to the folder first: a minute is the soonest. */
  notKept: ({ kind, message }: StoreTrouble) => (kind === "full" ? new Refusal(507, message) : new Refusal(503, message, { headers: { "Retry-After": "60" } })),
  tooMuchMemory: (mb: number) =>
    new Refusal(422, `The rehearsal was stopped: it took more than ${mb} MB. Ask for fewer rehearsals, or for a day with fewer loads.`),
  tooLong: (ms: number) =>
    new Refusal(504, `The rehearsal was stopped: it had not finished after ${ms / 1000} seconds. Ask for fewer rehearsals, or for a day with fewer loads.`),
};

/** Writes a refusal as a problem document. */
export function sendProblem(response: Response, { status, detail, more }: Refusal): void {
  response.status(status).set({ "Cache-Control": "no-store", ...more.headers }).type("application/problem+json");
  const title = STATUS_CODES[status] ?? "Refused";
  response.send(Buffer.from(JSON.stringify({ type: "about:blank", title, status, detail, errors: more.errors })));
}

/** What the body reader and the router throw, by their `type` or status, in words of our own: theirs may quote a library's inside. */
function refusalOf(error: { type?: unknown; status?: unknown; limit?: unknown }): Refusal | null {
  switch (error.type) {
    case "entity.too.large": return refusals.tooLarge(Number(error.limit));
    case "encoding.unsupported":
    case "charset.unsupported": return refusals.wrongEncoding();
  }
  const status = Number(error.status);
  return status >= 400 && status < 500 ? refusals.brokenRequest() : null;
}

/**
 * The last handler of the app. A `Refusal` is told as it is, trouble with the data folder in its own words, a library's 4xx in ours, anything
 * else as a bare 500: its message and stack go to `report` and never to the client.
 */
export function answerProblems(report: (error: unknown) => void): ErrorRequestHandler {
  return (error: unknown, _request, response, _next) => {
    if (error instanceof ClientGone) return;
    const known = error instanceof Refusal ? error : error instanceof StoreTrouble ? refusals.notKept(error) : refusalOf((error ?? {}) as object);
    if (known === null || error instanceof StoreTrouble) report(error);
    if (response.headersSent || response.destroyed) response.destroy();
    else sendProblem(response, known ?? refusals.failed());
  };
}
