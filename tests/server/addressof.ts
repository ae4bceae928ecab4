/** The address that a server prints once it listens. Rejects when the process ends before it had one. */
import type { ChildProcessByStdio } from "node:child_process";
import type { Readable } from "node:stream";

export function addressOf(child: ChildProcessByStdio<null, Readable, null>): Promise<string> {
  return new Promise((found, lost) => {
    let said = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      said += text;
      const address = /http:\S+(?=\s)/.exec(said)?.[0];
      if (address !== undefined) found(address);
    });
    child.on("exit", () => lost(new Error(`It ended before it had an address: ${said}`)));
  });
}
