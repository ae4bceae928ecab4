/** The Express app: guards first, then one file for each resource, then the page, then what is not there and what went wrong. */
import express from "express";
import type { Express } from "express";
import { putArchive } from "./archive.ts";
import type { Office } from "./office.ts";
import { putDoor } from "./door.ts";
import { headers, ownNamesOnly, pace } from "./guards.ts";
import { putHealth } from "./health.ts";
import type { Limits } from "./limits.ts";
import { putPage } from "./page.ts";
import type { Page } from "./page.ts";
import { answerProblems, refusals } from "./problems.ts";
import { putRehearsals } from "./rehearsals.ts";
import { putScenarios } from "./scenarios.ts";
import type { StudyDesk } from "./studies/desk.ts";
import { putStudies } from "./studies.ts";
import type { Store } from "./store/store.ts";
import type { Template } from "./templates.ts";
import { putSchemas } from "./schemas.ts";

export interface AppParts {
  readonly office: Office;
  readonly desk: StudyDesk;
  readonly store: Store;
  readonly templates: readonly Template[];
  /** null when it has not been built */ readonly page: Page | null;
  /** whether a name is the server's own */ readonly isOwnName: (name: string) => boolean;
  /** what lets other machines in; null where only this one can ask */ readonly token: string | null;
  readonly ready: () => boolean;
  /** told of every error that is the server's own fault */ readonly report: (error: unknown) => void;
  readonly limits: Limits;
}

/** Puts the app together. It listens nowhere yet. */
export function createApp({ office, desk, store, templates, page, isOwnName, token, ready, report, limits }: AppParts): Express {
  const app = express();
  app.disable("x-powered-by");
  app.disable("etag");
  app.enable("case sensitive routing");
  app.set("query parser", false);

  app.use(headers(), ownNamesOnly(isOwnName));
  putHealth(app, ready);
  putDoor(app, token, limits);
  app.use("/api", pace(limits));
  putRehearsals(app, office, limits);
  putStudies(app, desk, limits);
  putScenarios(app, templates, store, limits);
  putArchive(app, templates, store, limits);
  putSchemas(app);
  putPage(app, page);
  app.use(() => { throw refusals.noSuchThing("such address"); });
  app.use(answerProblems(report));
  return app;
}
