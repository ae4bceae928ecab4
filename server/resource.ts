/** One address and the methods it knows: 405 with Allow for the others, 204 with Allow for OPTIONS. */
import type { Express, RequestHandler } from "express";
import { refusals } from "./problems.ts";

export interface Handlers {
  /** answers HEAD as well */ readonly GET?: RequestHandler;
  readonly POST?: readonly RequestHandler[];
  readonly PUT?: readonly RequestHandler[];
  readonly DELETE?: RequestHandler;
}

/** Puts an address on the app. */
export function resource(app: Express, path: string, { GET, POST, PUT, DELETE }: Handlers): void {
  const allowed = [...(GET ? ["GET", "HEAD"] : []), ...(POST ? ["POST"] : []), ...(PUT ? ["PUT"] : []), ...(DELETE ? ["DELETE"] : []), "OPTIONS"].join(", ");
  const route = app.route(path);
  if (GET) route.get(GET);
  if (POST) route.post(...POST);
  if (PUT) route.put(...PUT);
  if (DELETE) route.delete(DELETE);
  route.options((_request, response) => void response.status(204).set("Allow", allowed).end());
  route.all((request) => { throw refusals.notThatMethod(request.method, allowed); });
}
