/** The whole server, started: files read, threads up, port taken, a first rehearsal on its way. */
import { join } from "node:path";
import { createApp } from "./app.ts";
import { Office } from "./office.ts";
import { house } from "./house.ts";
import { LIMITS } from "./limits.ts";
import type { Limits } from "./limits.ts";
import { listen } from "./listen.ts";
import { readPage } from "./page.ts";
import { questionOfYaml } from "./question.ts";
import { ownThreadRunner, threadRunner } from "./runner.ts";
import type { Runner } from "./runner.ts";
import { readTemplates } from "./scenarios.ts";

export interface StartOptions {
  readonly host: string;
  /** 0 for any free one */ readonly port: number;
  /** take a free port when that one is in use */ readonly instead: boolean;
  /** told of errors that are the server's own fault */ readonly report: (error: unknown) => void;
  readonly limits?: Limits;
  readonly runner?: Runner;
}

export interface Started {
  readonly host: string;
  readonly port: number;
  readonly url: string;
  /** false: from source, where threads cannot read TypeScript, so that a long rehearsal holds up the rest */ readonly threads: boolean;
  /** resolves when the first rehearsal has come back, and `/readyz` says so */ readonly warm: Promise<void>;
  close(): Promise<void>;
}

/** True when this is the built server and not its TypeScript source. */
const BUILT = import.meta.url.endsWith(".js");

/** Starts the server. Rejects when the port cannot be had or a file of the project is not as it should be. */
export async function start({ host, port, instead, report, limits = LIMITS, runner }: StartOptions): Promise<Started> {
  const root = house();
  const templates = readTemplates(join(root, "scenarios"));
  const hands = runner ?? (BUILT ? threadRunner(new URL("./worker.js", import.meta.url), limits) : ownThreadRunner());
  let ready = false;
  const app = createApp({
    office: new Office(hands, limits),
    templates,
    page: readPage(join(root, "dist", "page")),
    ready: () => ready,
    report,
    limits,
  });
  const listening = await listen(app, host, port, instead, limits);
  const closing = new AbortController();

  // A thread's first rehearsal takes several times as long as its tenth; better now than when somebody waits.
  const warm = Promise.all(Array.from({ length: hands.atOnce }, async () => {
    const example = templates[0];
    if (example !== undefined) await hands.run(questionOfYaml(example.text, new URLSearchParams({ rehearsals: "20" }), limits), closing.signal);
  })).then(() => { ready = true; }).catch((error: unknown) => { if (!closing.signal.aborted) report(error); });

  return {
    host,
    port: listening.port,
    url: `http://${host.includes(":") ? `[${host}]` : host}:${listening.port}`,
    threads: runner === undefined && BUILT,
    warm,
    close: async () => {
      ready = false;
      closing.abort();
      await listening.close();
      await hands.close();
    },
  };
}
