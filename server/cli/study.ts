/** Carries a study out for a command: on threads where it is worth it, with a bar on a terminal, and its refusals in the user's words. */
import { EndlessDay } from "../../sim/harvest/day.ts";
import { carryOut, carryOutOn, type Study, type Watch } from "../../sim/study/work.ts";
import { IS_BUILT } from "../house.ts";
import { studyThreads, usualStudyThreads } from "../studyhands.ts";
import { Refusal } from "./input.ts";
import { studyProgress } from "./progress.ts";

/** Days from which starting threads pays: a thread takes as long to start as some hundred days to rehearse. */
const WORTH_THREADS = 1000;

/** What an error of the engine is to the user: a day that does not end, what cannot be used, or a fault that stays what it is. */
function refusalOf(error: unknown): unknown {
  if (error instanceof EndlessDay) return new Refusal(error.message, { exitCode: 1 });
  return error instanceof RangeError ? new Refusal(error.message) : error;
}

/** The study's result. @throws Refusal for what the study cannot use, or a day that does not end */
export async function carriedOut<Result, SoFar>(study: Study<Result, SoFar>, { days, threads }: { readonly days: number; readonly threads?: number | undefined }): Promise<Result> {
  const progress = studyProgress("days rehearsed");
  const watch: Watch<SoFar> = { onProgress: ({ done, expected }) => progress.at(done, expected) };
  const wanted = threads ?? (days < WORTH_THREADS ? 1 : usualStudyThreads());
  const hands = IS_BUILT && wanted > 1 ? studyThreads(wanted) : null;
  try {
    return hands ? await carryOutOn(hands, study, watch) : carryOut(study, watch);
  } catch (error) {
    throw refusalOf(error);
  } finally {
    progress.done();
    await hands?.close();
  }
}
