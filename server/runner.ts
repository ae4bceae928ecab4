/** Who does the computing: threads of their own, so that the server stays awake, or, where there is no built worker, the server's own thread. */
import { availableParallelism } from "node:os";
import { Piscina } from "piscina";
import type { Document } from "./documents.ts";
import { logOf, perform } from "./job.ts";
import type { Answer, Job, NoAnswer, Part, Rehearsed, ShownDay } from "./job.ts";
import type { Limits } from "./limits.ts";

/** The runner has been closed: the server ends. */
export class SentHome extends Error {}

export interface Runner {
  /** jobs that run side by side */ readonly atOnce: number;
  /** Does one job. Rejects when the signal is aborted, ending the thread that was on it; with `SentHome` when the runner is or has been closed. */
  run(job: Job, signal: AbortSignal): Promise<Answer | NoAnswer>;
  /** Tells one day of a job load by load. Rejects as `run` does. */
  log(day: ShownDay, signal: AbortSignal): Promise<Document>;
  close(): Promise<void>;
}

/** One a core: the server's own thread only hands bytes on and waits for these. */
export const usualThreads = (): number => availableParallelism();

/** Days that are worth handing to another thread: fewer are rehearsed as soon as they are handed over. */
const WORTH_A_THREAD = 5;

/** Days of the largest job that stays whole, on one thread. */
export const MOST_WHOLE = 2 * WORTH_A_THREAD - 1;

/** The days of a job shared out among so many threads. */
function sharedOut(job: Job, threads: number): Part[] {
  const parts = Math.max(1, Math.min(threads, Math.floor(job.rehearsals / WORTH_A_THREAD)));
  const until = (part: number) => Math.round((job.rehearsals * part) / parts);
  return Array.from({ length: parts }, (_, i) => ({ job, from: until(i), to: until(i + 1) }));
}

/** Runs jobs on threads, one of many days on all of them. `worker` is the built `worker.js`: threads do not read TypeScript. */
export function threadRunner(worker: URL, limits: Limits, threads: number = usualThreads()): Runner {
  const filename = worker.href;
  // The pool is not told the file, jobs are: a thread that cannot read it then says so to whoever sent the job. One that could not read it while
  // starting would not be replaced, and the next job would wait for it until its time is over.
  const pool = new Piscina({ minThreads: threads, maxThreads: threads, resourceLimits: { maxOldGenerationSizeMb: limits.threadHeapMb } });
  // A thread that falls over between jobs is replaced by the pool; without a listener it would take the server with it.
  pool.on("error", () => {});
  // One for each thread, so that it has read the file before the first job comes.
  for (let thread = 0; thread < threads; thread += 1) pool.run(null, { filename, name: "readUp" }).catch(() => {});
  const share = async (job: Job, parts: readonly Part[], signal: AbortSignal): Promise<Answer | NoAnswer> => {
    // When one part cannot be done, nobody waits for the others.
    const inVain = new AbortController();
    const either = AbortSignal.any([signal, inVain.signal]);
    try {
      const days = await Promise.all(parts.map((part): Promise<Rehearsed["parts"][number]> => pool.run(part, { filename, signal: either, name: "rehearsePart" })));
      return await pool.run({ job, parts: days } satisfies Rehearsed, { filename, signal, name: "tell" });
    } catch (error) {
      inVain.abort();
      throw error;
    }
  };
  let closed = false;
  const unlessClosed = async <Result>(work: () => Promise<Result>): Promise<Result> => {
    // A destroyed pool would start new threads for new jobs.
    if (closed) throw new SentHome();
    try {
      return await work();
    } catch (error) {
      throw closed ? new SentHome() : error;
    }
  };
  return {
    atOnce: threads,
    run: (job, signal) => unlessClosed(() => {
      const parts = sharedOut(job, threads);
      return parts.length > 1 ? share(job, parts, signal) : pool.run(job, { filename, signal });
    }),
    log: (day, signal) => unlessClosed(() => pool.run(day, { filename, signal, name: "logOf" })),
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
    log: async (day, signal) => {
      signal.throwIfAborted();
      return logOf(day);
    },
    close: async () => {},
  };
}
