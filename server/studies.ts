/** `/api/v1/studies`: a question that takes a while. It is taken on, carried out in its turn, can be watched and cancelled, and is kept when done. */
import type { Express, Request, Response } from "express";
import { jsonBody, textOf } from "./bodies.ts";
import { document, send } from "./documents.ts";
import type { Limits } from "./limits.ts";
import { refusals, WANTED } from "./problems.ts";
import { resource } from "./resource.ts";
import { studyAsked } from "./studies/asked.ts";
import { STUDIES } from "./studies/desk.ts";
import type { StudyDesk } from "./studies/desk.ts";
import { heardAll, LAST, written } from "./studies/events.ts";
import type { StudyEvent } from "./studies/events.ts";

const TYPE = "application/json";

export function putStudies(app: Express, desk: StudyDesk, limits: Limits): void {
  let listeners = 0;

  const post = (request: Request, response: Response) => {
    const asked = studyAsked(textOf(request, WANTED.study), limits);
    const { text, isDone } = desk.ask(asked);
    response.status(isDone ? 200 : 202).set("Location", `${STUDIES}/${asked.id}`);
    send(request, response, document(text, TYPE));
  };

  const get = (request: Request, response: Response) => {
    const text = desk.text(String(request.params.id));
    if (text === undefined) throw refusals.noSuchStudy();
    send(request, response, document(text, TYPE));
  };

  const remove = (request: Request, response: Response) => {
    if (!desk.remove(String(request.params.id))) throw refusals.noSuchStudy();
    response.status(204).end();
  };

  const listen = (request: Request, response: Response) => {
    const id = String(request.params.id);
    const record = desk.record(id);
    if (record === undefined && desk.text(id) === undefined) throw refusals.noSuchStudy();
    const lastHeard = request.headers["last-event-id"] as string | undefined;
    // Whoever has heard the end comes back by itself unless it is told not to (HTML Living Standard, 9.2.3).
    if (heardAll(lastHeard) && (record === undefined || record.isOver)) return void response.status(204).end();
    if (listeners >= limits.listeners) throw refusals.tooManyListeners();
    // Nothing on the way may gather or compress what is to be heard at once.
    response.writeHead(200, { "Content-Type": "text/event-stream", "Cache-Control": "no-store, no-transform", "X-Accel-Buffering": "no" });
    if (request.method === "HEAD") return void response.end();
    const say = (event: StudyEvent) => {
      response.write(written(event));
      if (event.id === LAST) response.end();
    };
    if (record === undefined) return say({ id: LAST, name: "done", data: JSON.stringify({ state: "done", study: `${STUDIES}/${id}` }) });
    for (const event of record.events.since(lastHeard)) say(event);
    if (record.isOver) return;
    listeners += 1;
    const leave = record.events.listen(say);
    const beat = setInterval(() => response.write(":\n\n"), limits.beatMs);
    response.on("close", () => {
      listeners -= 1;
      leave();
      clearInterval(beat);
    });
  };

  resource(app, STUDIES, { POST: [...jsonBody(limits, WANTED.study), post] });
  resource(app, `${STUDIES}/:id`, { GET: get, DELETE: remove });
  resource(app, `${STUDIES}/:id/events`, { GET: listen });
}
