/** Reading what a client sends: the types it may be of, so many bytes of it, and only as UTF-8. */
import express from "express";
import type { Request, RequestHandler } from "express";
import { YAML_TYPES } from "./forms.ts";
import type { Limits } from "./limits.ts";
import { refusals, WANTED } from "./problems.ts";
import type { WrittenText } from "./forms.ts";

const SCENARIO_TYPES = ["application/json", ...YAML_TYPES];

/** Tells a wrong type or charset before the body is read; with no type at all there is nothing to read it as. */
export const typeOf = (types: readonly string[], wrongType: () => Error): RequestHandler => (request, _response, next) => {
  if (!request.is([...types])) throw wrongType();
  if (!/^utf-?8$/i.test(charsetOf(request))) throw refusals.wrongEncoding();
  next();
};

/** Refuses a body by the length that it says it has, at once: the reader would hear it to its end first. What says no length is counted as it comes. */
const atMost = (bytes: number): RequestHandler => (request, response, next) => {
  if (Number(request.headers["content-length"] ?? 0) <= bytes) return next();
  // What is still on its way is not read: the line is of no further use.
  response.set("Connection", "close");
  throw refusals.tooLarge(bytes);
};

/** The handlers that come before one that calls `textOf`. */
export const bodyOf = (types: readonly string[], bytes: number, wrongType: () => Error): RequestHandler[] =>
  [typeOf(types, wrongType), atMost(bytes), express.raw({ type: [...types], limit: bytes, inflate: false })];

/** A body of JSON or YAML. */
export const scenarioBody = (limits: Limits, wanted: string = WANTED.rehearsal): RequestHandler[] => bodyOf(SCENARIO_TYPES, limits.bodyBytes, () => refusals.wrongType(wanted));

/** A body of JSON. */
export const jsonBody = (limits: Limits, wanted: string): RequestHandler[] => bodyOf(["application/json"], limits.bodyBytes, () => refusals.wrongType(wanted, "application/json"));

const charsetOf = (request: Request): string => /;\s*charset\s*=\s*"?([^;"\s]+)/i.exec(request.headers["content-type"] ?? "")?.[1] ?? "utf-8";

/** The body as text. Throws a `Refusal` for one that is empty or no UTF-8. */
export function textOf(request: Request, wanted: string): string {
  const body: unknown = request.body;
  let text = "";
  try {
    if (body instanceof Uint8Array) text = new TextDecoder("utf-8", { fatal: true }).decode(body);
  } catch {
    throw refusals.brokenText();
  }
  if (text.trim() === "") throw refusals.emptyBody(wanted);
  return text;
}

/** The body as text, with the form it says it is in. */
export const writtenIn = (request: Request, wanted: string = WANTED.rehearsal): WrittenText => ({ form: request.is(YAML_TYPES) ? "yaml" : "json", text: textOf(request, wanted) });
