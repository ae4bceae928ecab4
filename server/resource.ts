/** One address and the methods it knows: 405 with Allow for the others, 204 with Allow for OPTIONS. */
import type { Express, RequestHandler } from "express";
import { refusals } from "./problems.ts";

/** Puts an address on the app. `GET` answers HEAD as well. */
export function resource(app: Express, path: string, handlers: { readonly GET?: RequestHandler; readonly POST?: RequestHandler[] }): void {
  const allowed = [...(handlers.GET ? ["GET", "HEAD"] : []), ...(handlers.POST ? ["POST"] : []), "OPTIONS"].join(", ");
  const route = app.route(path);
  if (handlers.GET) route.get(handlers.GET);
  if (handlers.POST) route.post(...handlers.POST);
  route.options((_request, response) => void response.status(204).set("Allow", allowed).end());
  route.all((request) => { throw refusals.notThatMethod(request.method, allowed); });
}
