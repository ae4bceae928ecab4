/** The whole server, started: files read, threads up, port taken, a first rehearsal on its way. */
import { join } from "node:path";
import { createApp } from "./app.ts";
import { Office } from "./office.ts";
import { entry, house, IS_BUILT } from "./house.ts";
import { Lasting } from "./lasting.ts";
import { LIMITS } from "./limits.ts";
import { listen } from "./listen.ts";
import { addressesOf, inUrl, LOOPBACK, ownNames } from "./names.ts";
import { readPage } from "./page.ts";
import { jobOf } from "./question.ts";
import { MOST_WHOLE, ownThreadRunner, threadRunner } from "./runner.ts";
import { Store } from "./store/store.ts";
import { StudyDesk } from "./studies/desk.ts";
import { ownThreadStudies, threadStudies } from "./studies/runner.ts";
import { usualStudyThreads } from "./studyhands.ts";
import { readTemplates } from "./templates.ts";

export interface StartOptions {
  readonly host: string;
  /** 0 for any free one */ readonly port: number;
  /** take a free port when that one is in use */ readonly instead: boolean;
  /** what other machines must show; null where the host is this machine's own */ readonly token: string | null;
  /** the data folder */ readonly folder: string;
  /** told of errors that are the server's own fault */ readonly report: (error: unknown) => void;
}

export interface Started {
  readonly port: number;
  /** where it can be reached, one at the least */ readonly urls: readonly string[];
  /** false: from source, where threads cannot read TypeScript, so that a long rehearsal holds up the rest */ readonly threads: boolean;
  close(): Promise<void>;
}

/** Starts the server. Rejects with `StoreTrouble` when the data folder cannot be used, and when the port cannot be had or a file of the project is not as it should be. */
export async function start({ host, port, instead, token, folder, report }: StartOptions): Promise<Started> {
  if (token === null && !LOOPBACK.includes(host)) throw new Error(`Whoever listens on ${host} can be reached by others and needs a token.`);
  const root = house();
  const templates = readTemplates(join(root, "scenarios"));
  const store = new Store(folder, LIMITS);
  const lasting = new Lasting(store, LIMITS, report);
  const hands = IS_BUILT ? threadRunner(entry("worker.js"), LIMITS) : ownThreadRunner();
  const studies = IS_BUILT ? threadStudies(entry("studyleader.js"), LIMITS, usualStudyThreads()) : ownThreadStudies(LIMITS);
  const desk = new StudyDesk(studies, LIMITS, lasting, report);
  let ready = false;
  const app = createApp({
    office: new Office(hands, LIMITS, lasting),
    desk,
    store,
    templates,
    page: readPage(join(root, "dist", "page")),
    isOwnName: ownNames(host),
    token,
    ready: () => ready,
    report,
    limits: LIMITS,
  });
  const listening = await listen(app, host, port, instead, LIMITS).catch(async (error: unknown) => {
    store.close();
    await hands.close();
    throw error;
  });
  const closing = new AbortController();

  // A thread's first rehearsal takes several times as long as its tenth; better now than when somebody waits. So few that each thread has its own.
  const [example] = templates;
  const first = async () => {
    if (example !== undefined) await hands.run(jobOf({ form: "yaml", text: example.text, query: `?rehearsals=${MOST_WHOLE}` }, LIMITS), closing.signal);
  };
  Promise.all(Array.from({ length: hands.atOnce }, first)).then(
    () => { ready = !closing.signal.aborted; },
    (error: unknown) => { if (!closing.signal.aborted) report(error); },
  );

  return {
    port: listening.port,
    urls: (addressesOf(host).length > 0 ? addressesOf(host) : [host]).map((address) => `http://${inUrl(address)}:${listening.port}`),
    threads: IS_BUILT,
    close: async () => {
      ready = false;
      closing.abort();
      desk.close();
      await listening.close();
      await hands.close();
      await lasting.write();
      store.close();
    },
  };
}
