/** Bytes that are sent as they are: one strong ETag per content, 304 to whoever has them already. */
import { createHash } from "node:crypto";
import type { Request, Response } from "express";

export interface Document {
  readonly bytes: Uint8Array;
  /** media type with its charset */ readonly type: string;
  /** strong entity tag, quotes included: the same for the same bytes, and for no others */ readonly tag: string;
}

/** 132 bits of SHA-256 in base64url: short enough to read aloud in parts, long enough that no two contents meet. */
export function digest(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part);
  return hash.digest("base64url").slice(0, 22);
}

/** Makes a document of text (as UTF-8) or bytes. */
export function document(content: string | Uint8Array, type: string): Document {
  const bytes = typeof content === "string" ? Buffer.from(content) : content;
  return { bytes, type, tag: `"${digest(bytes)}"` };
}

/** A value as a JSON document. */
export const jsonDocument = (value: unknown, type = "application/json"): Document => document(JSON.stringify(value), type);

/** Sends a document, or 304 when the client has it. `caching` is the Cache-Control line; by default the client asks each time. */
export function send(request: Request, response: Response, { bytes, type, tag }: Document, caching = "no-cache"): void {
  response.set({ "Cache-Control": caching, ETag: tag });
  if (isRead(request) && holds(request.headers["if-none-match"], tag)) {
    response.status(304).end();
    return;
  }
  // Not by Express's own `set`, which writes a charset behind JSON, where it means nothing.
  response.setHeader("Content-Type", type);
  response.setHeader("Content-Length", bytes.length);
  response.end(bytes);
}

const isRead = ({ method }: Request): boolean => method === "GET" || method === "HEAD";

/**
 * Whether an If-None-Match line (RFC 9110, 13.1.2) names the tag. Express's own `fresh` lets a `Cache-Control: no-cache` of the
 * request outweigh the line, and `fetch` sends that along with every If-None-Match.
 */
const holds = (line: string | undefined, tag: string): boolean =>
  line !== undefined && line.split(",").some((known) => known.trim() === "*" || known.trim().replace(/^W\//, "") === tag);

/** Whether an If-Match line (RFC 9110, 13.1.1) names one of the tags: strong comparison, so a weak one never matches. `tags` is empty where there is nothing. */
export const matches = (line: string, tags: readonly string[]): boolean =>
  line.split(",").some((known) => (known.trim() === "*" ? tags.length > 0 : tags.includes(known.trim())));
