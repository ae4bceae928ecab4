/** `clampside serve`: the server and the page, until it is told to end. */
import { resolve } from "node:path";
import { ENTER } from "../door.ts";
import { USUAL_PORT } from "../limits.ts";
import { LOOPBACK } from "../names.ts";
import { start } from "../start.ts";
import type { Started } from "../start.ts";
import { usualFolder } from "../store/folder.ts";
import { StoreTrouble } from "../store/trouble.ts";
import { isSoundToken, makeToken, SHORTEST_TOKEN } from "../token.ts";
import { print, printable, tell } from "./terminal.ts";

export interface ServeOptions {
  /** as typed; the usual port, or a free one, when left out */ readonly port?: string;
  readonly host?: string;
  /** the data folder; the platform's usual place when left out */ readonly data?: string;
  /** what other machines must show; made up when left out where it is needed */ readonly token?: string;
}

const ENDINGS = ["SIGINT", "SIGTERM"] as const;

/** Serves until interrupted. Gives the exit code: 0 ended as told, 1 could not start, 2 wrong use. */
export async function serve({ port, host = "127.0.0.1", data, token = process.env.CLAMPSIDE_TOKEN || undefined }: ServeOptions): Promise<number> {
  const wrong = whatIsWrong({ port, host, data, token });
  if (wrong !== null) {
    tell(wrong);
    return 2;
  }
  const folder = data === undefined ? usualFolder() : resolve(data);
  const wanted = port === undefined ? USUAL_PORT : Number(port);
  const ownToken = token ?? (LOOPBACK.includes(host) ? null : makeToken());
  let started: Started;
  try {
    started = await start({ host, port: wanted, instead: port === undefined, token: ownToken, folder, report });
  } catch (error) {
    tell(whyNot(error, wanted, host));
    return 1;
  }
  // Before the address is told: whoever reads it may say at once that it is to end.
  const told = toldToEnd();
  if (wanted !== 0 && started.port !== wanted) tell(`Port ${wanted} is in use; taking a free one.`);
  if (!started.threads) tell("Running from source: rehearsals share the server's own thread.");
  for (const url of started.urls) print(`Clampside is at ${url}`);
  if (token === undefined && ownToken !== null) print(`The first visit of each browser goes to ${started.urls[0]}${ENTER}?token=${ownToken}`);
  await told;
  await started.close();
  return 0;
}

/** A sentence for the first option that cannot be used, or null. */
function whatIsWrong({ port, host, data, token }: { port?: string | undefined; host: string; data?: string | undefined; token?: string | undefined }): string | null {
  if (port !== undefined && !(/^\d{1,5}$/.test(port) && Number(port) < 65_536)) {
    return `--port takes a whole number from 0 (any free one) to 65535, not "${printable(port)}".`;
  }
  if (!/^[\w.:-]+$/.test(host)) return `--host takes a name or an address, not "${printable(host)}".`;
  if (data?.trim() === "") return "--data takes the path of a folder.";
  if (token !== undefined && !isSoundToken(token)) return `--token takes ${SHORTEST_TOKEN} characters or more: letters, digits and . _ ~ - will do. Leave it out, and one is made.`;
  return null;
}

/** Trouble with the data folder is told in its words; everything else is the server's own fault, and whoever mends it wants to know where it was. */
function report(error: unknown): void {
  if (error instanceof StoreTrouble) tell(printable(error.message));
  else console.error(error);
}

function whyNot(error: unknown, port: number, host: string): string {
  if (error instanceof StoreTrouble) return printable(error.message);
  switch ((error as NodeJS.ErrnoException).code) {
    case "EADDRINUSE": return `Port ${port} is in use. Leave --port out, and a free one is taken.`;
    case "EACCES": return `Port ${port} may not be used by this account. One above 1023 would do.`;
    case "EADDRNOTAVAIL":
    case "ENOTFOUND":
    case "EAI_AGAIN": return `${host} is no address of this machine. 127.0.0.1 is for this machine alone, 0.0.0.0 for all that reach it.`;
    default: return `The server could not start: ${error instanceof Error ? error.message : String(error)}`;
  }
}

/** Resolves at the first interrupt. A second one finds the usual handling again and ends the process at once. */
function toldToEnd(): Promise<void> {
  return new Promise((resolve) => {
    const end = () => {
      for (const signal of ENDINGS) process.off(signal, end);
      resolve();
    };
    for (const signal of ENDINGS) process.on(signal, end);
  });
}
