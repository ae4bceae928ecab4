/** What the thread of one study does: carries it out, on threads of its own where that pays, and says how far it is. Run from the built file only. */
import { parentPort, workerData } from "node:worker_threads";
import { carryOut, carryOutOn } from "../sim/study/work.ts";
import { studyOf } from "./studies/kinds.ts";
import { seldom } from "./studies/runner.ts";
import type { Lead, LeadWord } from "./studies/runner.ts";
import { wordsOf } from "./studies/words.ts";
import { stepBack } from "./background.ts";
import { studyThreads } from "./studyhands.ts";

stepBack();
const { question, threads, heapMb, progressMs } = workerData as Lead;
const say = (word: LeadWord) => parentPort!.postMessage(word);

const watch = seldom((progress) => say({ progress }), progressMs);
const hands = threads > 1 ? studyThreads(threads, heapMb) : null;
try {
  say({ result: JSON.stringify(hands ? await carryOutOn(hands, studyOf(question), watch) : carryOut(studyOf(question), watch)) });
} catch (error) {
  const refused = wordsOf(error);
  if (refused === null) throw error;
  say({ refused });
}
