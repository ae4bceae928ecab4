/** `/api/v1/rehearsals`: a scenario goes in, findings and a day log come out, under an id that is made of what was asked. */
import type { Express, Request, Response } from "express";
import { scenarioBody, writtenIn } from "./bodies.ts";
import type { Office } from "./office.ts";
import { document, send } from "./documents.ts";
import type { Limits } from "./limits.ts";
import { ClientGone, refusals } from "./problems.ts";
import { jobOf, type Question } from "./question.ts";
import { resource } from "./resource.ts";
import { DAY_TABLES, measures } from "./tables.ts";

export const REHEARSALS = "/api/v1/rehearsals";

/** Aborted when the client hangs up before it has its answer. */
function goneOf(response: Response): AbortSignal {
  const gone = new AbortController();
  response.on("close", () => {
    if (!response.writableFinished) gone.abort(new ClientGone());
  });
  return gone.signal;
}

export function putRehearsals(app: Express, office: Office, limits: Limits): void {
  const post = async (request: Request, response: Response) => {
    const gone = goneOf(response);
    const question: Question = { ...writtenIn(request), query: new URL(request.url, "http://here").search };
    const { id, findings } = await office.answer(jobOf(question, limits), question, gone);
    response.set("Location", `${REHEARSALS}/${id}`);
    send(request, response, findings);
  };
  const keptUnder = (id: unknown) => {
    const answer = office.kept(String(id));
    if (answer === undefined) throw refusals.noSuchRehearsal();
    return answer;
  };

  resource(app, REHEARSALS, { POST: [...scenarioBody(limits), post] });
  resource(app, `${REHEARSALS}/:id`, { GET: (request, response) => send(request, response, keptUnder(request.params.id).findings) });
  const logUnder = (request: Request, response: Response) => office.log(keptUnder(request.params.id), goneOf(response));
  resource(app, `${REHEARSALS}/:id/log`, { GET: async (request, response) => send(request, response, await logUnder(request, response)) });

  const putTable = (name: string, made: (request: Request, response: Response) => Promise<string>) => resource(app, `${REHEARSALS}/:id/${name}.csv`, {
    GET: async (request, response) => {
      const table = await made(request, response);
      response.set("Content-Disposition", `attachment; filename="${name}.csv"`);
      send(request, response, document(table, "text/csv; charset=utf-8"));
    },
  });
  putTable("measures", async (request) => measures(keptUnder(request.params.id).findings));
  for (const [name, table] of Object.entries(DAY_TABLES)) putTable(name, async (request, response) => table(await logUnder(request, response)));
}
