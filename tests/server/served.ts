/** An app on a port of its own, for tests that speak to it over HTTP. */
import { request as plainRequest } from "node:http";
import type { IncomingHttpHeaders } from "node:http";
import type { Express } from "express";
import { createApp } from "../../server/app.ts";
import { Office } from "../../server/office.ts";
import { Lasting } from "../../server/lasting.ts";
import { LIMITS } from "../../server/limits.ts";
import type { Limits } from "../../server/limits.ts";
import { listen } from "../../server/listen.ts";
import { ownNames } from "../../server/names.ts";
import type { Page } from "../../server/page.ts";
import { ownThreadRunner } from "../../server/runner.ts";
import type { Runner } from "../../server/runner.ts";
import { StudyDesk } from "../../server/studies/desk.ts";
import { ownThreadStudies } from "../../server/studies/runner.ts";
import type { StudyRunner } from "../../server/studies/runner.ts";
import { Store } from "../../server/store/store.ts";
import type { Template } from "../../server/templates.ts";
import { witnessed } from "./witness.ts";

export interface Served {
  readonly url: string;
  readonly port: number;
  readonly app: Express;
  /** errors that the app called its own fault */ readonly reports: unknown[];
  /** what the app keeps */ readonly store: Store;
  /** writes answers that are on their way to the data folder */ write(): Promise<void>;
  /** Ends. Rejects when an answer was not as the OpenAPI document says. */ close(): Promise<void>;
}

/** Puts an app up with what the test cares for; rehearsals run on this thread unless a runner is given, and what is kept is kept in memory unless a folder is. */
export async function serveApp(parts: {
  limits?: Partial<Limits>; runner?: Runner; studies?: StudyRunner; templates?: Template[]; page?: Page | null; ready?: () => boolean; folder?: string; token?: string;
} = {}): Promise<Served> {
  const limits: Limits = { ...LIMITS, closingMs: 0, ...parts.limits };
  const reports: unknown[] = [];
  const report = (error: unknown) => void reports.push(error);
  const store = new Store(parts.folder ?? null, limits);
  const lasting = new Lasting(store, limits, report);
  const desk = new StudyDesk(parts.studies ?? ownThreadStudies(limits), limits, lasting, report);
  const app = createApp({
    office: new Office(parts.runner ?? ownThreadRunner(), limits, lasting),
    desk,
    store,
    templates: parts.templates ?? [],
    page: parts.page ?? null,
    isOwnName: ownNames("127.0.0.1"),
    token: parts.token ?? null,
    ready: parts.ready ?? (() => true),
    report,
    limits,
  });
  const { app: looked, complaints } = witnessed(app);
  const listening = await listen(looked, "127.0.0.1", 0, false, limits);
  const close = async () => {
    desk.close();
    await listening.close();
    await lasting.write();
    store.close();
    if (complaints.length > 0) throw new Error(`Answers that the OpenAPI document does not describe:\n${[...new Set(complaints)].join("\n")}`);
  };
  return { url: `http://127.0.0.1:${listening.port}`, port: listening.port, app, reports, store, write: () => lasting.write(), close };
}

/** Posts a body as it is. */
export const post = (url: string, body: string, type: string | null = "application/json", more: RequestInit = {}): Promise<Response> =>
  fetch(`${url}/api/v1/rehearsals`, { method: "POST", body, headers: type === null ? {} : { "Content-Type": type }, ...more });

/** A request with headers that `fetch` would not send. */
export function bare(port: number, path: string, headers: Record<string, string>, method = "GET"): Promise<{ status: number; headers: IncomingHttpHeaders; text: string }> {
  return new Promise((resolve, reject) => {
    const sent = plainRequest({ host: "127.0.0.1", port, path, headers, method, agent: false }, (response) => {
      let text = "";
      response.setEncoding("utf8");
      response.on("data", (part: string) => { text += part; });
      response.on("end", () => resolve({ status: response.statusCode ?? 0, headers: response.headers, text }));
    });
    sent.on("error", reject);
    sent.end();
  });
}
