/** What stands before every route: headers that keep the page to itself, names this server answers to, and a pace. */
import { rateLimit } from "express-rate-limit";
import helmet from "helmet";
import type { RequestHandler } from "express";
import type { Limits } from "./limits.ts";
import { readHost } from "./names.ts";
import { refusals } from "./problems.ts";

/**
 * The page loads from here and nowhere else. Nothing asks the browser to turn to HTTPS: on plain HTTP that would blank the page.
 * Style attributes are allowed because the drawing's saved picture carries them; scripts in the page's text are not.
 */
export const headers = (): RequestHandler => helmet({
  contentSecurityPolicy: {
    useDefaults: false,
    directives: {
      defaultSrc: ["'self'"],
      styleSrc: ["'self'", "'unsafe-inline'"],
      imgSrc: ["'self'", "data:", "blob:"],
      fontSrc: ["'self'", "data:"],
      objectSrc: ["'none'"],
      baseUri: ["'none'"],
      formAction: ["'self'"],
      frameAncestors: ["'none'"],
    },
  },
  strictTransportSecurity: false,
  // Browsers obey these two on HTTPS only, and complain on the console otherwise.
  crossOriginOpenerPolicy: false,
  originAgentCluster: false,
  xFrameOptions: { action: "deny" },
});

/**
 * Refuses requests that came under another name than the server's own: a page elsewhere whose name was made to point here would otherwise
 * read the answers. The same for requests that a page of another origin sends: an Origin has to be the very Host that was asked, and where the
 * browser says that a request crosses sites, only going to an address is let through. The port is left open, so that a tunnel works.
 */
export const ownNamesOnly = (isOwn: (name: string) => boolean): RequestHandler => (request, _response, next) => {
  const { host, origin } = request.headers;
  const asked = readHost(host);
  if (asked === null || !isOwn(asked.name)) throw refusals.strangeHost();
  if (origin !== undefined && origin.replace(/^https?:\/\//, "").toLowerCase() !== host!.toLowerCase()) throw refusals.strangeOrigin();
  const site = request.headers["sec-fetch-site"];
  const goesThere = request.headers["sec-fetch-mode"] === "navigate" && ["GET", "HEAD"].includes(request.method);
  if ((site === "cross-site" || site === "same-site") && !goesThere) throw refusals.strangeOrigin();
  next();
};

/** So many requests a minute from one address. */
export const pace = ({ perMinute }: Limits): RequestHandler => rateLimit({
  windowMs: 60_000,
  limit: perMinute,
  standardHeaders: "draft-8",
  legacyHeaders: false,
  handler: (_request, _response, next) => next(refusals.tooMany(perMinute, 60)),
});
