/** Threads for studies: each rehearses batches of days, and the study puts them in order. */
import { availableParallelism } from "node:os";
import { Piscina } from "piscina";
import { entry } from "./house.ts";
import type { Batch, Days, Hands } from "../sim/study/work.ts";

/** Days handed to a thread at once: few enough that all threads end together and a stop is heard soon, enough that handing over costs nothing. */
const AT_ONCE = 10;

export const usualStudyThreads = (): number => availableParallelism();

/** So many threads, of at most so many MB of heap each, ready when the first batch comes; `close` ends them, whatever they are at. */
export function studyThreads(threads: number, heapMb?: number): Hands & { readonly close: () => Promise<void> } {
  const pool = new Piscina<Batch, Days>({
    filename: entry("daysworker.js").href, minThreads: threads, maxThreads: threads,
    ...(heapMb === undefined ? {} : { resourceLimits: { maxOldGenerationSizeMb: heapMb } }),
  });
  return { most: AT_ONCE, rehearse: (batch) => pool.run(batch), close: () => pool.destroy() };
}
