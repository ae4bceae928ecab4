/** What stands before every route: headers that keep the page to itself, names this server answers to, and a pace. */
import { rateLimit } from "express-rate-limit";
import helmet from "helmet";
import type { RequestHandler } from "express";
import type { Limits } from "./limits.ts";
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

const OWN_NAME = /^(127\.0\.0\.1|localhost|\[::1\])(:\d{1,5})?$/i;

/**
 * Refuses requests that came under another name than this machine's own: a page elsewhere whose name was made to point at
 * 127.0.0.1 would otherwise read the answers. The same for requests sent by a page of another origin. The port is left open, so that a tunnel works.
 */
export const ownNamesOnly: RequestHandler = (request, _response, next) => {
  if (!OWN_NAME.test(request.headers.host ?? "")) throw refusals.strangeHost();
  const { origin } = request.headers;
  if (origin !== undefined && !OWN_NAME.test(origin.replace(/^https?:\/\//, ""))) throw refusals.strangeOrigin();
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
