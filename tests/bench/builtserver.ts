/** The server as it is shipped, in a process of its own, with a data folder that goes when it does. */
import { spawn, type ChildProcessByStdio } from "node:child_process";
import { cpSync } from "node:fs";
import { join } from "node:path";
import type { Readable } from "node:stream";
import { addressOf } from "../server/addressof.ts";
import { buildHouse } from "../server/built.ts";

export interface BuiltServer {
  readonly url: string;
  readonly child: ChildProcessByStdio<null, Readable, null>;
  /** Ends it, and waits until it has. */ close(): Promise<void>;
}

/** Builds and starts it. `node`: flags of Node's; `page`: the folder of a built page for it to send. */
export async function builtServer({ node = [], page }: { readonly node?: readonly string[]; readonly page?: string } = {}): Promise<BuiltServer> {
  const house = buildHouse();
  if (page !== undefined) cpSync(page, join(house.folder, "dist/page"), { recursive: true });
  const child = spawn(process.execPath, [...node, join(house.folder, "dist/server/cli/main.js"), "serve", "--port", "0", "--data", join(house.folder, "data")], { stdio: ["ignore", "pipe", "inherit"] });
  const close = async () => {
    child.kill("SIGTERM");
    await new Promise((ended) => (child.exitCode === null ? child.once("exit", ended) : ended(null)));
    house.remove();
  };
  try {
    return { url: await addressOf(child), child, close };
  } catch (error) {
    await close();
    throw error;
  }
}
