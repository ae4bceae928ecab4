/** The command line without a process of its own. */
import { run } from "../../server/cli/program.ts";
import type { Ran } from "./run.ts";

/** In this very process, one at a time: for what is the same there, many times over. */
export async function clampsideHere(...words: string[]): Promise<Ran> {
  const said = { stdout: "", stderr: "" };
  const { exitCode } = process;
  const writes = (["stdout", "stderr"] as const).map((name) => {
    const { write } = process[name];
    process[name].write = (piece: string | Uint8Array) => {
      said[name] += String(piece);
      return true;
    };
    return () => { process[name].write = write; };
  });
  process.exitCode = undefined;
  try {
    await run(words);
    return { code: Number(process.exitCode ?? 0), ...said };
  } finally {
    for (const giveBack of writes) giveBack();
    process.exitCode = exitCode;
  }
}
