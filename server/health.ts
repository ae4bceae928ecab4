/** Is the server awake, and may work be sent to it? */
import type { Express } from "express";
import { refusals } from "./problems.ts";
import { resource } from "./resource.ts";

/** `/livez` answers as long as the process does; `/readyz` once a first rehearsal has come back, and until the server is told to end. */
export function putHealth(app: Express, ready: () => boolean): void {
  resource(app, "/livez", { GET: (_request, response) => void response.set("Cache-Control", "no-store").json({ alive: true }) });
  resource(app, "/readyz", {
    GET: (_request, response) => {
      if (!ready()) throw refusals.closing();
      response.set("Cache-Control", "no-store").json({ ready: true });
    },
  });
}
