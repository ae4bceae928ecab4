/** `/api/v1/rehearsals`: a scenario goes in, findings and a day log come out, under an id that is made of what was asked. */
import type { Express, Request, Response } from "express";
import { scenarioBody, writtenIn } from "./bodies.ts";
import type { Office } from "./office.ts";
import { document, send } from "./documents.ts";
import type { Job } from "./job.ts";
import type { Limits } from "./limits.ts";
import { ClientGone, refusals } from "./problems.ts";
import { questionOfJson, questionOfYaml } from "./question.ts";
import { resource } from "./resource.ts";
import { TABLES } from "./tables.ts";

export const REHEARSALS = "/api/v1/rehearsals";

/** Aborted when the client hangs up before it has its answer. */
function goneOf(response: Response): AbortSignal {
  const gone = new AbortController();
  response.on("close", () => {
    if (!response.writableFinished) gone.abort(new ClientGone());
  });
  return gone.signal;
}

/** The job that a request asks for. */
function jobAsked(request: Request, limits: Limits): Job {
  const { form, text } = writtenIn(request);
  return form === "yaml" ? questionOfYaml(text, new URL(request.url, "http://here").searchParams, limits) : questionOfJson(text, limits);
}

export function putRehearsals(app: Express, office: Office, limits: Limits): void {
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

  resource(app, REHEARSALS, { POST: [...scenarioBody(limits), post] });
  resource(app, `${REHEARSALS}/:id`, { GET: (request, response) => send(request, response, keptUnder(request.params.id).findings) });
  resource(app, `${REHEARSALS}/:id/log`, { GET: (request, response) => send(request, response, keptUnder(request.params.id).log) });
  for (const [name, table] of Object.entries(TABLES)) {
    resource(app, `${REHEARSALS}/:id/${name}.csv`, {
      GET: (request, response) => {
        response.set("Content-Disposition", `attachment; filename="${name}.csv"`);
        send(request, response, document(table(keptUnder(request.params.id)), "text/csv; charset=utf-8"));
      },
    });
  }
}
