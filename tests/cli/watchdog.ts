/** Ends a process that hangs over a file, an endless loop included, after it has said over what: the thread that loops can say nothing. */
import { Worker } from "node:worker_threads";

export interface Watchdog {
  /** The next one begins; the time runs anew. */ next(): void;
  end(): Promise<number>;
}

/** In a thread of its own. What goes to standard error there goes through the thread that hangs, so it writes to the file descriptor. */
const WATCH = `
  const { readFileSync, writeSync } = require("node:fs");
  const { count, file, patience } = require("node:worker_threads").workerData;
  for (let seen = 0; ; seen = Atomics.load(count, 0)) {
    if (Atomics.wait(count, 0, seen, patience) !== "timed-out") continue;
    writeSync(2, "Not done after " + patience / 1000 + " s, so this process ends. It hangs over:\\n" + readFileSync(file, "utf8") + "\\n");
    process.kill(process.pid, "SIGKILL");
  }`;

/** Watches from now on. `file` holds what is at work, `patience` is in ms. */
export function watchdog(file: string, patience: number): Watchdog {
  const count = new Int32Array(new SharedArrayBuffer(4));
  const worker = new Worker(WATCH, { eval: true, execArgv: [], workerData: { count, file, patience } });
  return {
    next: () => {
      Atomics.add(count, 0, 1);
      Atomics.notify(count, 0);
    },
    end: () => worker.terminate(),
  };
}
