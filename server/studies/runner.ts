/** Who carries studies out: a thread that leads others, or, where threads cannot read the source, the server's own in small pieces. */
import { Worker } from "node:worker_threads";
import { carryOutOn, rehearseBatch } from "../../sim/study/work.ts";
import type { Hands, Watch } from "../../sim/study/work.ts";
import type { Limits } from "../limits.ts";
import { daysOf, studyOf } from "./kinds.ts";
import type { StudyQuestion } from "./kinds.ts";

export interface StudyProgress {
  readonly done: number;
  readonly expected: number;
  /** what can be shown already, as JSON */ readonly soFar?: string;
}

export interface StudyRunner {
  /**
   * Carries a study out and gives its result as JSON. Rejects with the signal's reason as soon as it is aborted, whatever goes on; with a
   * `RangeError` or an `EndlessDay` in the user's words; or with what went wrong.
   */
  run(question: StudyQuestion, onProgress: (progress: StudyProgress) => void, signal: AbortSignal): Promise<string>;
}

/** What a leading thread is given. */
export interface Lead { readonly question: StudyQuestion; readonly threads: number; readonly heapMb: number; readonly progressMs: number }

/** What a leading thread says. `refused`: in the user's words, whoever threw them. */
export type LeadWord = { readonly progress: StudyProgress } | { readonly result: string } | { readonly refused: string };

/** Words of a study for the person who asked, rather than a fault. */
export class StudyRefused extends Error {}

/** Passes on what a study says of its progress: what is new to show at once, the rest no more often than every so many ms. */
export function seldom(onProgress: (progress: StudyProgress) => void, ms: number): Watch<unknown> {
  let said = -Infinity;
  let shown: unknown;
  return {
    onProgress: ({ done, expected, soFar }) => {
      const now = performance.now();
      const isNew = soFar !== undefined && soFar !== shown;
      if (!isNew && now - said < ms) return;
      said = now;
      if (isNew) shown = soFar;
      onProgress({ done, expected, ...(isNew ? { soFar: JSON.stringify(soFar) } : {}) });
    },
  };
}

/** Days from which more threads than one pay: a thread takes as long to start as some hundred days to rehearse. */
const WORTH_THREADS = 1_000;

/** `leader` is the built `studyleader.js`. */
export function threadStudies(leader: URL, limits: Limits, threads: number): StudyRunner {
  return {
    run: (question, onProgress, signal) => new Promise((resolve, reject) => {
      if (signal.aborted) return reject(signal.reason);
      const days = daysOf(question).reduce((sum, count) => sum + count, 0);
      const lead: Lead = { question, threads: days < WORTH_THREADS ? 1 : threads, heapMb: limits.threadHeapMb, progressMs: limits.progressMs };
      const worker = new Worker(leader, { workerData: lead, resourceLimits: { maxOldGenerationSizeMb: limits.threadHeapMb } });
      // The threads it leads end with it.
      const stop = () => {
        reject(signal.reason);
        void worker.terminate();
      };
      signal.addEventListener("abort", stop, { once: true });
      worker.on("message", (word: LeadWord) => {
        if ("progress" in word) return onProgress(word.progress);
        if ("result" in word) resolve(word.result);
        else reject(new StudyRefused(word.refused));
        void worker.terminate();
      });
      worker.on("error", reject);
      worker.on("exit", (code) => {
        signal.removeEventListener("abort", stop);
        reject(new Error(`The thread of a study ended with ${code} and said nothing.`));
      });
    }),
  };
}

/** Days between two looks at what else there is to do. */
const PIECE = 2;

/** Carries studies out between other things. */
export function ownThreadStudies({ progressMs }: Pick<Limits, "progressMs">): StudyRunner {
  return {
    run: async (question, onProgress, signal) => {
      // One piece after another: if all of them waited for the next turn of the loop, they would have that turn to themselves.
      let before: Promise<unknown> = Promise.resolve();
      const breathe = async () => {
        await new Promise((resolve) => setImmediate(resolve));
        signal.throwIfAborted();
      };
      const hands: Hands = {
        most: PIECE,
        pause: breathe,
        rehearse: (batch) => {
          const days = before.then(breathe).then(() => rehearseBatch(batch));
          before = days.catch(() => {});
          return days;
        },
      };
      return JSON.stringify(await carryOutOn(hands, studyOf(question), seldom(onProgress, progressMs)));
    },
  };
}
