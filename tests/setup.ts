/** Before every test file: generated cases are the same in each usual run, so that a red check is red again; the long run draws new ones and prints their seed. */
import type { ChildProcess } from "node:child_process";
import { subscribe } from "node:diagnostics_channel";
import fc from "fast-check";
import { removeRunFolder } from "./temporary.ts";

if (!process.env.CLAMPSIDE_LONG) fc.configureGlobal({ seed: 20 });

// A run that is stopped leaves its test files at work, for hours in the long run: they end with it, and so does what they started. Some share a process.
if (process.listenerCount("disconnect") === 0) {
  const started = new Set<ChildProcess>();
  subscribe("child_process", (message) => {
    const { process: child } = message as { process: ChildProcess };
    started.add(child);
    child.once("exit", () => started.delete(child));
  });
  process.once("disconnect", () => {
    for (const child of started) child.kill();
    removeRunFolder();
    process.exit();
  });
}
