/** The built page: read once at the start, so that no name from a client ever reaches the file system. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { extname, join, relative, sep } from "node:path";
import type { Express } from "express";
import { document, send } from "./documents.ts";
import type { Document } from "./documents.ts";
import { refusals } from "./problems.ts";
import { resource } from "./resource.ts";

/** Address (`/`, `/assets/...`) -> what is sent. */
export type Page = ReadonlyMap<string, Document>;

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
  ".json": "application/json", ".svg": "image/svg+xml", ".png": "image/png", ".ico": "image/x-icon",
  ".woff2": "font/woff2", ".woff": "font/woff", ".txt": "text/plain; charset=utf-8", ".webmanifest": "application/manifest+json",
};

const NOT_BUILT = "The page has not been built. Run `npm run build`, then start the server again. The API answers under /api/v1.\n";

/** Reads every file of the folder that has a type a browser needs; null when the page has not been built. */
export function readPage(folder: string): Page | null {
  const page = new Map<string, Document>();
  for (const name of statSync(folder, { throwIfNoEntry: false }) ? readdirSync(folder, { recursive: true, encoding: "utf8" }) : []) {
    const path = join(folder, name);
    const type = TYPES[extname(name)];
    if (type === undefined || !statSync(path).isFile()) continue;
    const address = "/" + relative(folder, path).split(sep).join("/");
    page.set(address === "/index.html" ? "/" : address, document(readFileSync(path), type));
  }
  return page.has("/") ? page : null;
}

/** Puts the page on the app. The names under `/assets/` carry a hash of their content, so they never change; the rest is asked for each time. */
export function putPage(app: Express, page: Page | null): void {
  if (page === null) {
    resource(app, "/", { GET: (_request, response) => void response.status(404).type("text/plain").send(NOT_BUILT) });
    return;
  }
  app.use((request, response, next) => {
    const file = page.get(request.path);
    if (file === undefined) return next();
    if (request.method !== "GET" && request.method !== "HEAD") throw refusals.notThatMethod(request.method, "GET, HEAD");
    send(request, response, file, request.path.startsWith("/assets/") ? "public, max-age=31536000, immutable" : "no-cache");
  });
}
