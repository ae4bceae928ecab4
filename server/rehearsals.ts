/** `/api/v1/rehearsals`: a scenario goes in, findings and a day log come out, under an id that is made of what was asked. */
import express from "express";
import type { Express, Request, RequestHandler, Response } from "express";
import type { Office } from "./office.ts";
import { send } from "./documents.ts";
import type { Job } from "./job.ts";
import type { Limits } from "./limits.ts";
import { ClientGone, refusals } from "./problems.ts";
import { questionOfJson, questionOfYaml } from "./question.ts";
import { resource } from "./resource.ts";

export const REHEARSALS = "/api/v1/rehearsals";

const YAML_TYPES = ["application/yaml", "text/yaml", "application/x-yaml"];
const BODY_TYPES = ["application/json", ...YAML_TYPES];

/** Aborted when the client hangs up before it has its answer. */
function goneOf(response: Response): AbortSignal {
  const gone = new AbortController();
  response.on("close", () => {
    if (!response.writableFinished) gone.abort(new ClientGone());
  });
  return gone.signal;
}

/** A wrong type is told before the body is read; with no type at all there is nothing to read it as. */
const knownType: RequestHandler = (request, _response, next) => {
  if (!request.is(BODY_TYPES)) throw refusals.wrongType();
  next();
};

/** The job that a request asks for. */
function jobAsked(request: Request, limits: Limits): Job {
  const text: unknown = request.body;
  if (typeof text !== "string" || text.trim() === "") throw refusals.emptyBody();
  return request.is(YAML_TYPES) ? questionOfYaml(text, new URL(request.url, "http://here").searchParams, limits) : questionOfJson(text, limits);
}

export function putRehearsals(app: Express, office: Office, limits: Limits): void {
  const bodyAsText = express.text({ type: BODY_TYPES, limit: limits.bodyBytes, inflate: false });

  const post = async (request: Request, response: Response) => {
    const gone = goneOf(response);
    const job = jobAsked(request, limits);
    const answer = await office.answer(job, gone);
    response.set("Location", `${REHEARSALS}/${job.id}`);
    send(request, response, answer.findings);
  };
  const keptUnder = (id: unknown) => {
    const answer = office.kept(String(id));
    if (answer === undefined) throw refusals.noSuchRehearsal();
    return answer;
  };

  resource(app, REHEARSALS, { POST: [knownType, bodyAsText, post] });
  resource(app, `${REHEARSALS}/:id`, { GET: (request, response) => send(request, response, keptUnder(request.params.id).findings) });
  resource(app, `${REHEARSALS}/:id/log`, { GET: (request, response) => send(request, response, keptUnder(request.params.id).log) });
}
