/** `clampside serve`: the server and the page, until it is told to end. */
import { resolve } from "node:path";
import { USUAL_PORT } from "../listen.ts";
import { start } from "../start.ts";
import type { Started } from "../start.ts";
import { usualFolder } from "../store/folder.ts";
import { StoreTrouble } from "../store/trouble.ts";
import { print, printable, tell } from "./terminal.ts";

export interface ServeOptions {
  /** as typed; the usual port, or a free one, when left out */ readonly port?: string;
  readonly host?: string;
  /** the data folder; the platform's usual place when left out */ readonly data?: string;
}

/** Addresses of this machine itself; others wait until there is something to keep strangers out. */
const OWN_HOSTS = ["127.0.0.1", "localhost", "::1"];
const ENDINGS = ["SIGINT", "SIGTERM"] as const;

/** Serves until interrupted. Gives the exit code: 0 ended as told, 1 could not start, 2 wrong use. */
export async function serve({ port, host = "127.0.0.1", data }: ServeOptions): Promise<number> {
  if (port !== undefined && !(/^\d{1,5}$/.test(port) && Number(port) < 65_536)) {
    tell(`--port takes a whole number from 0 (any free one) to 65535, not "${printable(port)}".`);
    return 2;
  }
  if (!OWN_HOSTS.includes(host)) {
    tell(`--host takes an address of this machine itself: ${OWN_HOSTS.join(", ")}; not "${printable(host)}".`);
    return 2;
  }
  if (data?.trim() === "") {
    tell("--data takes the path of a folder.");
    return 2;
  }
  const folder = data === undefined ? usualFolder() : resolve(data);
  const wanted = port === undefined ? USUAL_PORT : Number(port);
  let started: Started;
  try {
    started = await start({ host, port: wanted, instead: port === undefined, folder, report });
  } catch (error) {
    tell(whyNot(error, wanted));
    return 1;
  }
  if (wanted !== 0 && started.port !== wanted) tell(`Port ${wanted} is in use; taking a free one.`);
  if (!started.threads) tell("Running from source: rehearsals share the server's own thread.");
  print(`Clampside is at ${started.url}`);
  await toldToEnd();
  await started.close();
  return 0;
}

/** Trouble with the data folder is told in its words; everything else is the server's own fault, and whoever mends it wants to know where it was. */
function report(error: unknown): void {
  if (error instanceof StoreTrouble) tell(printable(error.message));
  else console.error(error);
}

function whyNot(error: unknown, port: number): string {
  if (error instanceof StoreTrouble) return printable(error.message);
  switch ((error as NodeJS.ErrnoException).code) {
    case "EADDRINUSE": return `Port ${port} is in use. Leave --port out, and a free one is taken.`;
    case "EACCES": return `Port ${port} may not be used by this account. One above 1023 would do.`;
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
