/** Who does the computing: threads of their own, so that the server stays awake, or, where there is no built worker, the server's own thread. */
import { availableParallelism } from "node:os";
import { Piscina } from "piscina";
import { perform } from "./job.ts";
import type { Answer, Job, NoAnswer } from "./job.ts";
import type { Limits } from "./limits.ts";

/** The runner has been closed: the server ends. */
export class SentHome extends Error {}

export interface Runner {
  /** jobs that run side by side */ readonly atOnce: number;
  /** Does one job. Rejects when the signal is aborted, ending the thread that was on it; with `SentHome` when the runner is or has been closed. */
  run(job: Job, signal: AbortSignal): Promise<Answer | NoAnswer>;
  close(): Promise<void>;
}

/** One core is left to the server. */
export const usualThreads = (): number => Math.max(1, availableParallelism() - 1);

/** Runs jobs on threads. `worker` is the built `worker.js`: threads do not read TypeScript. */
export function threadRunner(worker: URL, limits: Limits, threads: number = usualThreads()): Runner {
  const pool = new Piscina<Job, Answer | NoAnswer>({
    filename: worker.href,
    minThreads: threads,
    maxThreads: threads,
    resourceLimits: { maxOldGenerationSizeMb: limits.threadHeapMb },
  });
  // A thread that falls over between jobs is replaced by the pool; without a listener it would take the server with it.
  pool.on("error", () => {});
  let closed = false;
  return {
    atOnce: threads,
    run: async (job, signal) => {
      // A destroyed pool would start new threads for new jobs.
      if (closed) throw new SentHome();
      try {
        return await pool.run(job, { signal });
      } catch (error) {
        throw closed ? new SentHome() : error;
      }
    },
    close: () => {
      closed = true;
      return pool.destroy();
    },
  };
}

/** Runs jobs where it stands. A job cannot be stopped once it has begun. */
export function ownThreadRunner(): Runner {
  return {
    atOnce: 1,
    run: async (job, signal) => {
      signal.throwIfAborted();
      return perform(job);
    },
    close: async () => {},
  };
}
