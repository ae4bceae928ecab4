/** The door for other machines: who has no token stays outside, who has shown it once gets a cookie. On this machine alone it stands open. */
import express from "express";
import type { Express, Request, RequestHandler, Response } from "express";
import type { Limits } from "./limits.ts";
import { refusals, sendProblem } from "./problems.ts";
import { resource } from "./resource.ts";
import { cookieFor, isSame } from "./token.ts";
import { Wrongs } from "./wrongs.ts";

export const ENTER = "/enter";
const COOKIE = "clampside";
/** s that a browser is let in without being asked again: a harvest. */
const COOKIE_LIFE = 90 * 24 * 3600;

/** Addresses that say nothing of what is kept here. */
const OPEN = new Set(["/livez", "/readyz", ENTER]);

const FORM = (said: string) => `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>Clampside</title>
<style>body { font: 1.1rem/1.5 sans-serif; max-width: 32rem; margin: 3rem auto; padding: 0 1rem; background: #FAF8F2; color: #1F2421 } input, button { font: inherit; padding: .4rem .6rem }</style>
<h1>Clampside</h1>
<p>${said}</p>
<form method="post" action="${ENTER}"><label>Token <input name="token" type="password" autocomplete="current-password" required autofocus></label> <button>Enter</button></form>
</html>
`;
const ASK = "This server is asked from another machine, so it wants the token that it showed when it was started.";
const WRONG = "That was not the token. It was shown when the server was started.";

/** Puts the door before everything that comes after; with no token there is none. */
export function putDoor(app: Express, token: string | null, limits: Limits): void {
  if (token === null) return;
  const wrongs = new Wrongs(limits.wrongTokens, 60_000);
  const cookie = cookieFor(token);

  /** Whether the token shown is right. Too many wrong ones from an address, and it is not even compared. */
  const opens = (request: Request, shown: string): boolean => {
    const from = request.socket.remoteAddress ?? "";
    const wait = wrongs.waitOf(from);
    if (wait > 0) throw refusals.tooManyWrong(Math.ceil(wait / 1000));
    if (isSame(shown, token)) return true;
    wrongs.add(from);
    return false;
  };

  const stay: RequestHandler = (request, response, next) => {
    if (OPEN.has(request.path)) return next();
    const bearer = /^Bearer ([\w.~-]+)$/i.exec(request.headers.authorization ?? "")?.[1];
    const shown = cookieOf(request);
    // A cookie of an earlier token is no try at guessing: it is far too long for that.
    if (bearer !== undefined ? opens(request, bearer) : shown !== undefined && isSame(shown, cookie)) return next();
    askFor(request, response, ASK);
  };

  const letIn = (request: Request, response: Response, shown: string) => {
    if (!opens(request, shown)) return askFor(request, response, WRONG);
    response.set("Set-Cookie", `${COOKIE}=${cookie}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${COOKIE_LIFE}`);
    response.status(303).set({ "Cache-Control": "no-store", Location: "/" }).end();
  };

  app.use(stay);
  resource(app, ENTER, {
    GET: (request, response) => {
      const shown = new URL(request.url, "http://here").searchParams.get("token");
      if (shown === null) sendForm(response, 200, ASK);
      else letIn(request, response, shown);
    },
    POST: [express.urlencoded({ extended: false, limit: 1_000, parameterLimit: 4, inflate: false }), (request, response) => {
      const { token: shown } = (request.body ?? {}) as { token?: unknown };
      letIn(request, response, typeof shown === "string" ? shown : "");
    }],
  });
}

/** A page to whoever reads pages, a problem to a program. */
function askFor(request: Request, response: Response, said: string): void {
  if (request.accepts(["json", "html"]) === "html") sendForm(response, 401, said);
  else sendProblem(response, refusals.noToken());
}

function sendForm(response: Response, status: number, said: string): void {
  response.status(status).set({ "Cache-Control": "no-store", ...(status === 401 ? { "WWW-Authenticate": "Bearer" } : {}) }).type("html").send(FORM(said));
}

function cookieOf(request: Request): string | undefined {
  const found = (request.headers.cookie ?? "").split(";").map((part) => part.trim()).find((part) => part.startsWith(`${COOKIE}=`));
  return found?.slice(COOKIE.length + 1);
}
